#include "report/review_left.h"

#include "report/answer.h"
#include "review/findings.h"

static bool worth_telling(const struct pen *p, const struct finding *f, bool fresh) {
  if (f->weight == FINDING_ACT) return true;
  return f->weight == FINDING_WATCH && (p->all || (fresh && !f->background));
}

void say_review_left(const struct pen *p, const struct check_result *before, const struct check_result *after,
                     const char *whose) {
  bool titled = false;
  for (size_t i = 0; after && i < after->finding_count; i++) { /* sorted by weight */
    const struct finding *f = &after->finding[i];
    bool fresh = !findings_say(before, f->id);
    if (!worth_telling(p, f, fresh)) continue;
    if (!titled)
      heading(p, say_text(p, "%s%sWhat check says of it", whose, whose[0] ? ": " : ""), "the rest: 'check' of the new text");
    titled = true;
    struct prose how = prose_at(MARGIN, f->weight == FINDING_ACT ? INK_STRONG : INK_PLAIN);
    how.indent = MARGIN + 4;
    const char *word = !before ? "" : fresh ? "New: " : "Still: ";
    prose_write(p, &how, say_text(p, "%s%s%s%s", word, f->text, f->remedy[0] ? " " : "", f->remedy));
  }
}
