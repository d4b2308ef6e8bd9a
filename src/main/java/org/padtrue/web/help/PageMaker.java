package org.padtrue.web.help;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TableBlock;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.ext.heading.anchor.IdGenerator;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.Heading;
import org.commonmark.node.Image;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;

/**
 * Makes HTML of one Markdown file (CommonMark with the tables of GitHub's dialect). Links between
 * files become addresses of pages; HTML in the text is shown, not obeyed.
 */
final class PageMaker {
  private static final List<Extension> TABLES = List.of(TablesExtension.create());
  private static final String PICTURES = "images/";

  private final String name;
  private final Map<Node, String> ids = new IdentityHashMap<>();
  private final Set<String> pictures = new HashSet<>();

  PageMaker(String name) {
    this.name = name;
  }

  /** File names of the pictures that the page shows. */
  Set<String> pictures() {
    return pictures;
  }

  HelpPage page(String markdown) {
    Node document = Parser.builder().extensions(TABLES).build().parse(markdown);
    String title = name;
    List<HelpPage.Section> sections = new ArrayList<>();
    IdGenerator unique = IdGenerator.builder().build();
    for (Node n = document.getFirstChild(); n != null; n = n.getNext()) {
      if (n instanceof Heading h) {
        String words = words(h);
        String id = unique.generateId(words);
        ids.put(h, id);
        if (h.getLevel() == 1) {
          title = words;
        } else if (h.getLevel() == 2) {
          sections.add(new HelpPage.Section(id, words));
        }
      }
    }
    document.accept(new Addresses());
    return new HelpPage(name, title, sections, blocks(document));
  }

  private List<String> blocks(Node document) {
    HtmlRenderer html =
        HtmlRenderer.builder()
            .extensions(TABLES)
            .escapeHtml(true)
            .sanitizeUrls(true)
            .attributeProviderFactory(c -> this::attributes)
            .build();
    List<String> blocks = new ArrayList<>();
    int tables = 0;
    for (Node n = document.getFirstChild(); n != null; n = n.getNext()) {
      String block = html.render(n);
      if (n instanceof TableBlock) {
        tables++;
        // wider than a telephone: it scrolls by itself, by keyboard too
        block =
            "<div class=\"table\" tabindex=\"0\" role=\"region\" aria-label=\"Table "
                + tables
                + "\">"
                + block
                + "</div>";
      }
      blocks.add(block);
    }
    return blocks;
  }

  private void attributes(Node n, String tag, Map<String, String> attributes) {
    String id = ids.get(n);
    if (id != null) {
      attributes.put("id", id);
    }
    if (tag.equals("pre")) {
      attributes.put("tabindex", "0");
    }
    if (tag.equals("th")) {
      attributes.put("scope", "col");
    }
  }

  private static String words(Node heading) {
    StringBuilder b = new StringBuilder();
    heading.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Text t) {
            b.append(t.getLiteral());
          }

          @Override
          public void visit(Code c) {
            b.append(c.getLiteral());
          }
        });
    return b.toString();
  }

  /** Turns destinations within the folder into addresses of the server. */
  private final class Addresses extends AbstractVisitor {
    @Override
    public void visit(Link l) {
      String to = l.getDestination();
      int hash = to.indexOf('#');
      String file = hash < 0 ? to : to.substring(0, hash);
      if (file.endsWith(".md")) {
        String address = Handbook.address(file.substring(0, file.length() - 3));
        l.setDestination(address + (hash < 0 ? "" : to.substring(hash)));
      }
      visitChildren(l);
    }

    @Override
    public void visit(Image i) {
      String to = i.getDestination();
      if (to.startsWith(PICTURES)) {
        pictures.add(to.substring(PICTURES.length()));
        i.setDestination("/help/" + to);
      }
      visitChildren(i);
    }
  }
}
