package org.padtrue.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;

/**
 * JSON as the contract wants it: doubles at full precision, null for what is not known. Outer
 * levels are indented, each entry of a list stands on one line, so that a person can scroll and
 * compare.
 */
public final class JsonOut implements Closeable {
  private static final int INDENTED_LEVELS = 2;

  /** Writes one entry. */
  public interface Entry<T> {
    void write(JsonOut out, T value) throws IOException;
  }

  private final JsonGenerator g;

  /** Writes to a stream, which {@link #close} closes. */
  public JsonOut(OutputStream stream) throws IOException {
    g = new JsonFactory().createGenerator(stream);
    g.setPrettyPrinter(new Layout());
  }

  public JsonOut begin() throws IOException {
    g.writeStartObject();
    return this;
  }

  public JsonOut begin(String name) throws IOException {
    g.writeObjectFieldStart(name);
    return this;
  }

  public JsonOut end() throws IOException {
    g.writeEndObject();
    return this;
  }

  public JsonOut text(String name, @Nullable String value) throws IOException {
    if (value == null) {
      return nothing(name);
    }
    g.writeStringField(name, value);
    return this;
  }

  public JsonOut whole(String name, int value) throws IOException {
    g.writeNumberField(name, value);
    return this;
  }

  public JsonOut flag(String name, boolean value) throws IOException {
    g.writeBooleanField(name, value);
    return this;
  }

  public JsonOut number(String name, double value) throws IOException {
    if (!Double.isFinite(value)) {
      return nothing(name);
    }
    // + 0.0: no "-0.0" in files
    g.writeNumberField(name, value + 0.0);
    return this;
  }

  public JsonOut nothing(String name) throws IOException {
    g.writeNullField(name);
    return this;
  }

  public JsonOut xy(String name, Xy v) throws IOException {
    return begin(name).number("x", v.x()).number("y", v.y()).end();
  }

  public JsonOut xyr(String name, Xyr v) throws IOException {
    return begin(name).number("x", v.x()).number("y", v.y()).number("rotation", v.rotation()).end();
  }

  public JsonOut texts(String name, List<String> values) throws IOException {
    g.writeArrayFieldStart(name);
    for (String v : values) {
      g.writeString(v);
    }
    g.writeEndArray();
    return this;
  }

  public JsonOut numbers(String name, double[] values) throws IOException {
    g.writeArrayFieldStart(name);
    for (double v : values) {
      g.writeNumber(v + 0.0);
    }
    g.writeEndArray();
    return this;
  }

  /** A list of objects, an empty list when there are none. */
  public <T> JsonOut list(String name, List<T> values, Entry<T> entry) throws IOException {
    g.writeArrayFieldStart(name);
    for (T v : values) {
      g.writeStartObject();
      entry.write(this, v);
      g.writeEndObject();
    }
    g.writeEndArray();
    return this;
  }

  @Override
  public void close() throws IOException {
    g.writeRaw('\n');
    g.close();
  }

  /** New lines down to a level, blanks below it. */
  private static final class Layout extends DefaultPrettyPrinter {
    private static final long serialVersionUID = 1L;

    Layout() {
      Shallow indenter = new Shallow();
      indentObjectsWith(indenter);
      indentArraysWith(indenter);
      _objectFieldValueSeparatorWithSpaces = ": ";
    }

    @Override
    public DefaultPrettyPrinter createInstance() {
      return new Layout();
    }
  }

  private static final class Shallow extends DefaultIndenter {
    private static final long serialVersionUID = 1L;

    Shallow() {
      super("  ", "\n");
    }

    @Override
    public void writeIndentation(JsonGenerator gen, int level) throws IOException {
      if (level <= INDENTED_LEVELS) {
        super.writeIndentation(gen, level);
      } else {
        gen.writeRaw(' ');
      }
    }
  }
}
