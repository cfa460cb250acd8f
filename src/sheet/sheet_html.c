/* A sheet as one HTML file that needs nothing from elsewhere. */
#include <math.h>

#include "base/num.h"
#include "sheet/sheet.h"

struct page {
  struct buf *out;
  int pictures; /* so far: each has a name of its own */
  int headings;
  bool in_list, in_section;
};

static const char STYLE[] =
    "*{box-sizing:border-box}\n"
    "html{-webkit-text-size-adjust:100%}\n"
    "body{margin:0 auto;max-width:52rem;padding:1.5rem 1.25rem 3rem;background:#fff;color:#201f1b;line-height:1.4;"
    "font-family:'Atkinson Hyperlegible','DejaVu Sans',Verdana,sans-serif}\n"
    "h1{font-size:1.9em;line-height:1.15;margin:0 0 .15em;overflow-wrap:anywhere}\n"
    "h2{font-size:1.2em;margin:1.5em 0 .4em;padding-bottom:.15em;border-bottom:1.5px solid #201f1b}\n"
    "p{margin:.45em 0;overflow-wrap:anywhere}\n"
    "ul{margin:.45em 0;padding-left:1.3em}\n"
    "li{margin:.2em 0;overflow-wrap:anywhere}\n"
    ".dim,.small{color:#5c5750}\n"
    ".small{display:block;font-size:.85em}\n"
    ".strong{font-weight:700}\n"
    ".danger-word{font-weight:700;font-size:1.25em;border:2.5px solid #201f1b;padding:.35em "
    ".6em;background:#201f1b;color:#fff;"
    "print-color-adjust:exact;-webkit-print-color-adjust:exact}\n"
    ".box{margin:.55em 0;padding:.1em 0 .1em .7em;border-left:3px solid #b9b3a9}\n"
    ".box p{margin:.15em 0}\n"
    ".box.act{border-left:6px solid #201f1b}\n"
    ".box.danger{border:2.5px solid #201f1b;padding:.5em .7em}\n"
    ".box .do::before{content:'\\2192\\00a0'}\n"
    ".scroll{overflow-x:auto}\n"
    "table{width:100%;border-collapse:collapse;margin:.5em 0;font-size:.95em}\n"
    "th,td{padding:.22em .45em .22em 0;text-align:left;vertical-align:top;overflow-wrap:anywhere}\n"
    "thead th{border-bottom:1px solid #201f1b;font-size:.9em}\n"
    "tbody th{font-weight:400}\n"
    "tbody tr{border-bottom:1px solid #e6e1d8}\n"
    "th.n,td.n{text-align:right;padding-right:1.3em;font-variant-numeric:tabular-nums}\n"
    "td.n{white-space:nowrap}\n"
    "td.n .small{white-space:normal}\n"
    "tr.across th{font-weight:700;padding-top:.7em;border-bottom:1px solid #b9b3a9}\n"
    "tr.strong>*{font-weight:700;border-top:1px solid #201f1b}\n"
    "tr.danger>*{font-weight:700;text-decoration:underline}\n"
    "td svg{width:100%}\n"
    "svg{max-width:100%;height:auto;display:block}\n"
    "figure svg{width:min(100%,36rem)}\n"
    "figure{margin:.6em 0}\n"
    ".whole{white-space:nowrap}\n"
    "@media screen and (max-width:40rem){th,td{overflow-wrap:break-word}}\n" /* a phone: columns of whole words, moved
                                                                                sideways */
    "@media print{body{max-width:none;padding:0}.scroll{overflow:visible}"
    "tr,li,.box,figure,.danger-word{break-inside:avoid}h2,.across,.lead{break-after:avoid}thead{display:table-header-group}"
    "p{orphans:2;widows:2}}\n";

/* ---- pieces ------------------------------------------------------------------------------------------------------ */

static void text(const struct page *p, const char *words) { markup_text(p->out, words); }

static void picture(struct page *p, const struct drawing *d) { drawing_svg(d, ++p->pictures, p->out); }

static void end_list(struct page *p) {
  if (p->in_list) buf_adds(p->out, "</ul>\n");
  p->in_list = false;
}

static const char *class_of(enum sheet_tone tone) {
  static const char *const CLASS[] = {"", "dim", "strong", "danger", "act", "watch", "know"};
  return CLASS[tone];
}

static void paragraph(struct page *p, const struct sheet_block *b) {
  const char *name = b->tone == TONE_DANGER ? "danger-word" : class_of(b->tone);
  buf_addf(p->out, name[0] ? "<p class=\"%s\">" : "<p%s>", name);
  text(p, b->text);
  buf_adds(p->out, "</p>\n");
}

static void box(struct page *p, const struct sheet_block *b) {
  buf_addf(p->out, "<div class=\"box %s\">\n<p>", class_of(b->tone));
  text(p, b->text);
  buf_adds(p->out, "</p>\n");
  for (int i = 0; i < 2; i++) {
    if (!b->more[i] || !b->more[i][0]) continue;
    buf_addf(p->out, "<p class=\"%s\">", i == 0 ? "dim" : "do");
    text(p, b->more[i]);
    buf_adds(p->out, "</p>\n");
  }
  buf_adds(p->out, "</div>\n");
}

static void heading(struct page *p, const struct sheet_block *b) {
  if (p->in_section) buf_adds(p->out, "</section>\n");
  p->in_section = true;
  p->headings++;
  buf_addf(p->out, "<section aria-labelledby=\"part%d\">\n<h2 id=\"part%d\">", p->headings, p->headings);
  text(p, b->text);
  buf_adds(p->out, "</h2>\n");
}

/* ---- tables ------------------------------------------------------------------------------------------------------ */

static void head(struct page *p, const struct sheet_table *t) {
  buf_adds(p->out, "<section class=\"scroll\" tabindex=\"0\" aria-label=\"");
  text(p, t->caption);
  buf_addf(p->out, "\">\n<table>\n<caption hidden>");
  text(p, t->caption);
  buf_adds(p->out, "</caption>\n<colgroup>");
  for (int c = 0; c < t->columns; c++) {
    buf_adds(p->out, "<col style=\"width:");
    num_fixed(p->out, t->column[c].share * 100, 0);
    buf_adds(p->out, "%\">");
  }
  buf_adds(p->out, "</colgroup>\n<thead>\n<tr>");
  for (int c = 0; c < t->columns; c++) {
    buf_addf(p->out, "<th scope=\"col\"%s>", t->column[c].figures ? " class=\"n\"" : "");
    text(p, t->column[c].title);
    buf_adds(p->out, "</th>");
  }
  buf_adds(p->out, "</tr>\n</thead>\n<tbody>\n");
}

static void cell(struct page *p, const struct sheet_cell *c) {
  text(p, c->text);
  if (c->small && c->small[0]) {
    buf_adds(p->out, "<span class=\"small\">");
    text(p, c->small);
    buf_adds(p->out, "</span>");
  }
  if (c->drawing) picture(p, c->drawing);
}

static void row(struct page *p, const struct sheet_table *t, const struct sheet_row *r) {
  const char *name = r->tone == TONE_DANGER ? "danger" : r->strong ? "strong" : "";
  if (r->across) {
    buf_addf(p->out, "<tr class=\"across\"><th scope=\"rowgroup\" colspan=\"%d\">", t->columns);
    text(p, r->cell[0].text);
    buf_adds(p->out, "</th></tr>\n");
    return;
  }
  buf_addf(p->out, name[0] ? "<tr class=\"%s\">" : "<tr%s>", name);
  for (int c = 0; c < t->columns; c++) {
    bool names = c == 0 && t->names_first;
    buf_adds(p->out, names ? "<th scope=\"row\" dir=\"auto\"" : "<td");
    if (t->column[c].figures) buf_adds(p->out, " class=\"n\"");
    buf_addc(p->out, '>');
    cell(p, &r->cell[c]);
    buf_adds(p->out, names ? "</th>" : "</td>");
  }
  buf_adds(p->out, "</tr>\n");
}

static void table(struct page *p, const struct sheet_table *t) {
  bool open = true;
  head(p, t);
  for (size_t i = 0; i < t->rows; i++) {
    if (t->row[i].across && i > 0) {
      buf_adds(p->out, "</tbody>\n<tbody>\n");
      open = true;
    }
    row(p, t, &t->row[i]);
  }
  if (open) buf_adds(p->out, "</tbody>\n");
  buf_adds(p->out, "</table>\n</section>\n");
}

/* ---- the file ---------------------------------------------------------------------------------------------------- */

static void block(struct page *p, const struct sheet_block *b) {
  if (b->kind != SHEET_POINT) end_list(p);
  switch (b->kind) {
  case SHEET_TITLE:
    buf_adds(p->out, "<h1 dir=\"auto\">");
    text(p, b->text);
    buf_adds(p->out, "</h1>\n");
    break;
  case SHEET_HEADING:
    heading(p, b);
    break;
  case SHEET_PARAGRAPH:
    paragraph(p, b);
    break;
  case SHEET_POINT:
    if (!p->in_list) buf_adds(p->out, "<ul>\n");
    p->in_list = true;
    buf_adds(p->out, "<li>");
    text(p, b->text);
    buf_adds(p->out, "</li>\n");
    break;
  case SHEET_BOX:
    box(p, b);
    break;
  case SHEET_TABLE:
    table(p, b->table);
    break;
  case SHEET_PICTURE:
    buf_adds(p->out, "<figure>");
    picture(p, b->drawing);
    buf_adds(p->out, "</figure>\n");
    break;
  }
}

static void start(struct page *p, const struct sheet *s) {
  buf_adds(p->out, "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                   "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
  text(p, s->title);
  buf_addf(p->out,
           "</title>\n<style>\n@page{size:%s;margin:16mm 15mm}\nhtml{font-size:%s}\n@media print{html{font-size:%s}}\n%s",
           s->style.paper == PAPER_LETTER ? "letter" : "A4", s->style.large ? "150%" : "100%",
           s->style.large ? "18pt" : "10.5pt", STYLE);
  buf_adds(p->out, "</style>\n</head>\n<body>\n<main>\n");
}

void sheet_html(const struct sheet *s, struct buf *out) {
  struct page p = {.out = out};
  start(&p, s);
  for (size_t i = 0; i < s->count; i++) block(&p, &s->block[i]);
  end_list(&p);
  if (p.in_section) buf_adds(p.out, "</section>\n");
  buf_adds(out, "</main>\n</body>\n</html>\n");
}
