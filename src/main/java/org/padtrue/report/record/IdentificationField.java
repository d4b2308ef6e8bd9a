package org.padtrue.report.record;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What identifies part, process and people. A field that nobody gives is printed as a line to fill
 * in.
 *
 * <p>Numbers are those of AS9102 Rev. C, form 1: 1 to 19 as published guides to the form list them,
 * 20 to 26 as its annexes B.1 and B.2 do; 0 is our own. Fields 15 to 18 (an index of parts with
 * records of their own) are left to the assembly's record.
 */
public enum IdentificationField {
  /** Number of the part that the record is about. */
  PART_NUMBER("partNumber", "Part number", 1),
  /** Its name. */
  PART_NAME("partName", "Part name", 2),
  /** Serial number of the panel or board that was measured. */
  SERIAL_NUMBER("serialNumber", "Serial number", 3),
  /** What this record is filed under. */
  RECORD_NUMBER("recordNumber", "Record (FAIR) identifier", 4),
  /** Revision of the part. */
  PART_REVISION("partRevision", "Part revision", 5),
  /** Drawing or data set that defines it. */
  DRAWING_NUMBER("drawingNumber", "Drawing number", 6),
  /** Revision of the drawing. */
  DRAWING_REVISION("drawingRevision", "Drawing revision", 7),
  /** Changes that the drawing does not carry yet. */
  ADDITIONAL_CHANGES("additionalChanges", "Additional changes", 8),
  /** Work order, traveller or placement programme. */
  PROCESS_REFERENCE("processReference", "Process reference", 9),
  /** Who made it. */
  ORGANISATION("organisation", "Organisation", 10),
  /** The customer's code for who made it. */
  SUPPLIER_CODE("supplierCode", "Supplier code", 11),
  /** Order. */
  PURCHASE_ORDER("purchaseOrder", "Purchase order", 12),
  /** Detail or assembly. */
  SCOPE("scope", "Detail or assembly", 13),
  /** Full or partial, with base and reason. */
  EXTENT("extent", "Full or partial, why", 14),
  /** Whether documented nonconformances belong to it: yes or no. */
  NONCONFORMANCE("nonconformance", "Documented nonconformance", 19),
  /** Who verified it. */
  VERIFIED_BY("verifiedBy", "Verified by", 20),
  /** When. */
  VERIFIED_ON("verifiedOn", "Date", 21),
  /** Who reviewed and approved it. */
  APPROVED_BY("approvedBy", "Reviewed and approved by", 22),
  /** When. */
  APPROVED_ON("approvedOn", "Date", 23),
  /** The customer's approval. */
  CUSTOMER_APPROVAL("customerApproval", "Customer approval", 24),
  /** When. */
  CUSTOMER_APPROVED_ON("customerApprovedOn", "Date", 25),
  /** Anything else. */
  COMMENTS("comments", "Comments", 26),
  /** The machine that placed the parts. */
  MACHINE("machine", "Placement machine", 0),
  /** Who ran it. */
  OPERATOR("operator", "Operator", 0),
  /** Batch or lot. */
  BATCH("batch", "Batch", 0),
  /** Who measured. */
  MEASURED_BY("measuredBy", "Measured by", 0),
  /** When it was measured. */
  MEASURED_ON("measuredOn", "Measured on", 0),
  /** Temperature and what else counts for measuring. */
  CONDITIONS("conditions", "Conditions", 0);

  private final String key;
  private final String label;
  private final int form1;

  IdentificationField(String key, String label, int form1) {
    this.key = key;
    this.label = label;
    this.form1 = form1;
  }

  /** Its name in files and options. */
  public String key() {
    return key;
  }

  /** Its name for people. */
  public String label() {
    return label;
  }

  /** Field number of AS9102 form 1; 0 for our own. */
  public int form1() {
    return form1;
  }

  /** All names, in order. */
  public static List<String> keys() {
    return Arrays.stream(values()).map(IdentificationField::key).toList();
  }

  /** The field with a name. */
  public static Optional<IdentificationField> parse(String key) {
    return Arrays.stream(values()).filter(f -> f.key.equals(key)).findFirst();
  }
}
