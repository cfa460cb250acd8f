/* foods.h: the foods while they are being put together. Shared by the steps of the builder that read, sort and complete
 * them.
 *
 * Order of the steps (pipeline.c runs them): published tables -> parts and kinds -> own records -> cited figures -> absence by
 * nature -> class patterns -> spread -> cuts and bones -> sections of the image. Each step only fills what is still unknown.
 */
#ifndef BW_LIBRARY_FOODS_H
#define BW_LIBRARY_FOODS_H

#include "library/writer.h"

struct build_food {
  struct img_food food;                                /* texts are set when the sections are written */
  const char *code, *name, *short_name, *group, *note; /* short_name: the table's own abbreviation, may be "" */
  const char *group_code;                              /* FdGrp_Cd "0500", or IFCT's group letter */
  const char *scientific;
  const char *refuse_text;           /* what of the piece as bought is not eaten, NULL or "" if nothing is said */
  const char *common_name;           /* other everyday names that the table gives; may be "" */
  const char *maker;                 /* a brand's maker as the table gives it; may be "" */
  struct img_value value[NUT_COUNT]; /* spread not yet set: cv_code is filled by the spread step */
  double
      estimate_error[NUT_COUNT]; /* CV that comes from an estimate or a range of sources; 0 for a plain published figure */
  double cystine, tyrosine;      /* g per 100 g, NaN unknown: parts of met_cys and phe_tyr */
  bool amino_published;          /* from the amino- and fatty-acid table, not estimated */
  struct build_measure {
    const char *words;
    double grams;
  } measure[8];
  int measure_count;
};

struct foods_build {
  struct writer *w;
  struct arena *arena;
  struct build_food *food;
  size_t count, cap;
  uint32_t *code_hash; /* open hash of index + 1 */
  size_t code_hash_size;
};

/* A new record with that code, every value unknown and every figure NaN; ends the program when the code is taken.
 * Pointers to records are good until the next foods_add. */
struct build_food *foods_add(struct foods_build *b, const char *code);
struct build_food *foods_by_code(struct foods_build *b, const char *code); /* NULL */
/* Sets a value unless one is already there with at least that standing (measured > cited > estimated > none > unknown). */
void foods_set(struct build_food *f, enum nutrient n, double mean, enum value_status status, double error_cv,
               uint16_t source);

/* amino.c: adds rows to the quarantine section, which an earlier step may have begun. */
void quarantine_add(struct writer *w, const struct img_quarantine *more, size_t n);

/* All that is published, cited or absent by nature; and what is estimated from it, with the spread of every value. */
void foods_gather(struct foods_build *b, struct writer *w, const char *packages_dir, const char *data_dir);
void foods_estimate(struct foods_build *b, const char *data_dir);

/* steps, in order */
void read_sr28(struct foods_build *b, const char *packages_dir, const char *data_dir); /* sr28.c */
void read_ifct(struct foods_build *b, const char *packages_dir,
               const char *data_dir); /* ifct.c; writes the quarantine section */
void sort_parts(struct foods_build *b,
                const char *data_dir); /* parts.c: part, spread_class, kind, state, flags, retention_group */
void sort_retention(struct foods_build *b, const char *data_dir); /* parts.c: which cooking rows fit, own records included */
void add_own_records(struct foods_build *b,
                     const char *data_dir); /* own.c: bones, eggshell, salts, kelp, oils, plain supplements */
void complete_amino_fatty(struct foods_build *b, const char *data_dir); /* amino.c: published amino and fatty acids */
void complete_cited(
    struct foods_build *b,
    const char *data_dir); /* cited.c: iodine, chloride, taurine, biotin; phytate and oxalate from IFCT and cited */
void complete_absent(struct foods_build *b, const char *data_dir); /* absent.c: VALUE_NONE by rule */
void complete_patterns(struct foods_build *b,
                       const char *data_dir); /* patterns.c: class patterns with leave-one-out error; writes IMG_PATTERNS */
void complete_spread(struct foods_build *b, const char *data_dir); /* spread.c: cv_code of every value; writes IMG_CLASSES */
void add_cuts(struct foods_build *b,
              const char *data_dir); /* cuts.c: bone shares of published records, and our own bone-in cuts */

#endif
