/* The summary as a picture: plain SVG, greyscale-safe, with a title and a description that say the same in words. */
#include "report/many.h"

enum { ROW = 22, NAME = 190, BAR = 440, NUMBER = 260, TOP = 92, EDGE = 20, MOST = 24 };

static void write_text_of(struct buf *b, const char *text) {
  for (; *text; text++) switch (*text) {
    case '&':
      buf_adds(b, "&amp;");
      break;
    case '<':
      buf_adds(b, "&lt;");
      break;
    case '>':
      buf_adds(b, "&gt;");
      break;
    case '"':
      buf_adds(b, "&quot;");
      break;
    default:
      buf_addc(b, *text);
    }
}

static void write_label(struct buf *b, int x, int y, const char *more, const char *text) {
  buf_addf(b, "<text x=\"%d\" y=\"%d\"%s>", x, y, more);
  write_text_of(b, text);
  buf_adds(b, "</text>\n");
}

/* ORDER BARS: from the worst to the mildest; the ink grows lighter. */
static const struct {
  enum group_id group;
  const char *word, *fill;
} BARS[] = {{GROUP_SHORT, "short", "#7a2e00"},
            {GROUP_THIN, "thin", "#c9824f"},
            {GROUP_UNPROVEN, "unproven", "#d9d2c5"},
            {GROUP_OVER, "over", "#1d3a5f"}};

static bool is_told(const struct many *m, enum nutrient n) {
  for (size_t k = 0; k < COUNT_OF(BARS); k++)
    if (m->by[n][BARS[k].group] > 0) return true;
  return false;
}

static const char *in_words(const struct many *m, enum nutrient n, struct arena *a) {
  const char *item[COUNT_OF(BARS)];
  size_t count = 0;
  for (size_t k = 0; k < COUNT_OF(BARS); k++)
    if (m->by[n][BARS[k].group] > 0) item[count++] = words_text(a, "%s %zu", BARS[k].word, m->by[n][BARS[k].group]);
  return words_list(a, item, count, count);
}

static void write_row(const struct many *m, enum nutrient n, int y, struct buf *b) {
  double x = EDGE + NAME;
  write_label(b, EDGE, y + 15, "", words_nutrient(b->arena, n));
  for (size_t k = 0; k < COUNT_OF(BARS); k++) {
    double wide = (double)BAR * (double)m->by[n][BARS[k].group] / (double)m->judged;
    if (!(wide > 0)) continue;
    buf_addf(b, "<rect x=\"%.1f\" y=\"%d\" width=\"%.1f\" height=\"%d\" fill=\"%s\" stroke=\"#fff\"/>\n", x, y, wide,
             ROW - 4, BARS[k].fill);
    x += wide;
  }
  write_label(b, EDGE + NAME + BAR + 10, y + 15, " font-size=\"11\"", in_words(m, n, b->arena));
}

static void write_key(struct buf *b) {
  int x = EDGE;
  for (size_t k = 0; k < COUNT_OF(BARS); k++) {
    buf_addf(b, "<rect x=\"%d\" y=\"66\" width=\"12\" height=\"12\" fill=\"%s\"/>\n", x, BARS[k].fill);
    write_label(b, x + 18, 77, "", BARS[k].word);
    x += 100;
  }
}

static void write_description(const struct many *m, size_t rows, struct buf *b) {
  buf_adds(b, "<desc>");
  write_text_of(b, many_lead(m, b->arena));
  for (size_t i = 0; i < rows; i++) {
    buf_addc(b, ' ');
    write_text_of(
        b, words_text(b->arena, "%s: %s.", words_nutrient(b->arena, m->order[i]), in_words(m, m->order[i], b->arena)));
  }
  buf_adds(b, "</desc>\n");
}

void report_many_svg(const struct many *m, struct buf *out) {
  size_t rows = 0;
  while (rows < m->order_count && rows < MOST && is_told(m, m->order[rows])) rows++;
  int wide = 2 * EDGE + NAME + BAR + NUMBER, high = TOP + ROW * (int)rows + EDGE;
  buf_addf(out,
           "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" viewBox=\"0 0 %d %d\" role=\"img\" "
           "aria-labelledby=\"t\" font-family=\"sans-serif\" font-size=\"13\">\n<title id=\"t\">How often each need is not "
           "met</title>\n",
           wide, high, wide, high);
  write_description(m, rows, out);
  buf_addf(out, "<rect width=\"%d\" height=\"%d\" fill=\"#fff\"/>\n", wide, high);
  write_label(out, EDGE, 28, " font-size=\"17\" font-weight=\"bold\"",
              words_text(out->arena, "How often each need is not met, of %zu judged", m->judged));
  write_label(out, EDGE, 50, "",
              m->with_danger > 0 ? words_text(out->arena, "A danger is named in %zu of %zu texts.", m->with_danger, m->count)
                                 : "No text names a danger.");
  write_key(out);
  for (size_t i = 0; i < rows; i++) write_row(m, m->order[i], TOP + ROW * (int)i, out);
  buf_adds(out, "</svg>\n");
}
