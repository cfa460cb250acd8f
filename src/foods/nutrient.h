/* nutrient.h: the nutrients, in one fixed order, with key, name and unit.
 *
 * Every array "per nutrient" in this project has this order, the library image included (ORDER NUTRIENT). A reader refuses
 * an image with another number of them; another order of as many is another IMAGE_VERSION. Layer: foods. */
#ifndef BW_NUTRIENT_H
#define BW_NUTRIENT_H

#include "base/arena.h"
#include "base/base.h"

/* ORDER NUTRIENT: X(enum, "key", "Name", "unit", group). Units are those of every amount in the core.
 * vitamin_a is retinol usable by the species (computed from retinol and beta_carotene, never stored in the image);
 * energy as stored in a food is the published kcal, which is shown but not summed: see energy.h.
 * carbohydrate is by difference and includes fibre. folate is total folate. niacin is preformed niacin.
 * vitamin_e is alpha-tocopherol; vitamin_k is phylloquinone (K1), as the tables publish it. */
#define NUTRIENT_LIST(X)                                                                                                    \
  X(ENERGY, "energy", "Energy", "kcal", ENERGY)                                                                             \
  X(WATER, "water", "Water", "g", PROXIMATE)                                                                                \
  X(PROTEIN, "protein", "Protein", "g", PROXIMATE)                                                                          \
  X(FAT, "fat", "Fat", "g", PROXIMATE)                                                                                      \
  X(CARBOHYDRATE, "carbohydrate", "Carbohydrate", "g", PROXIMATE)                                                           \
  X(FIBER, "fiber", "Fibre", "g", PROXIMATE)                                                                                \
  X(STARCH, "starch", "Starch", "g", PROXIMATE)                                                                             \
  X(SUGARS, "sugars", "Sugars", "g", PROXIMATE)                                                                             \
  X(ASH, "ash", "Ash", "g", PROXIMATE)                                                                                      \
  X(ARGININE, "arginine", "Arginine", "g", AMINO)                                                                           \
  X(HISTIDINE, "histidine", "Histidine", "g", AMINO)                                                                        \
  X(ISOLEUCINE, "isoleucine", "Isoleucine", "g", AMINO)                                                                     \
  X(LEUCINE, "leucine", "Leucine", "g", AMINO)                                                                              \
  X(LYSINE, "lysine", "Lysine", "g", AMINO)                                                                                 \
  X(METHIONINE, "methionine", "Methionine", "g", AMINO)                                                                     \
  X(MET_CYS, "met_cys", "Methionine + cystine", "g", AMINO)                                                                 \
  X(PHENYLALANINE, "phenylalanine", "Phenylalanine", "g", AMINO)                                                            \
  X(PHE_TYR, "phe_tyr", "Phenylalanine + tyrosine", "g", AMINO)                                                             \
  X(THREONINE, "threonine", "Threonine", "g", AMINO)                                                                        \
  X(TRYPTOPHAN, "tryptophan", "Tryptophan", "g", AMINO)                                                                     \
  X(VALINE, "valine", "Valine", "g", AMINO)                                                                                 \
  X(TAURINE, "taurine", "Taurine", "g", AMINO)                                                                              \
  X(LINOLEIC, "linoleic", "Linoleic acid", "g", FATTY)                                                                      \
  X(ALPHA_LINOLENIC, "alpha_linolenic", "Alpha-linolenic acid", "g", FATTY)                                                 \
  X(ARACHIDONIC, "arachidonic", "Arachidonic acid", "g", FATTY)                                                             \
  X(EPA, "epa", "EPA", "g", FATTY)                                                                                          \
  X(DHA, "dha", "DHA", "g", FATTY)                                                                                          \
  X(EPA_DHA, "epa_dha", "EPA + DHA", "g", FATTY)                                                                            \
  X(SATURATED, "saturated", "Saturated fat", "g", FATTY)                                                                    \
  X(MONOUNSATURATED, "monounsaturated", "Monounsaturated fat", "g", FATTY)                                                  \
  X(POLYUNSATURATED, "polyunsaturated", "Polyunsaturated fat", "g", FATTY)                                                  \
  X(CHOLESTEROL, "cholesterol", "Cholesterol", "mg", FATTY)                                                                 \
  X(CALCIUM, "calcium", "Calcium", "mg", MINERAL)                                                                           \
  X(PHOSPHORUS, "phosphorus", "Phosphorus", "mg", MINERAL)                                                                  \
  X(MAGNESIUM, "magnesium", "Magnesium", "mg", MINERAL)                                                                     \
  X(SODIUM, "sodium", "Sodium", "mg", MINERAL)                                                                              \
  X(POTASSIUM, "potassium", "Potassium", "mg", MINERAL)                                                                     \
  X(CHLORIDE, "chloride", "Chloride", "mg", MINERAL)                                                                        \
  X(IRON, "iron", "Iron", "mg", TRACE)                                                                                      \
  X(COPPER, "copper", "Copper", "mg", TRACE)                                                                                \
  X(ZINC, "zinc", "Zinc", "mg", TRACE)                                                                                      \
  X(MANGANESE, "manganese", "Manganese", "mg", TRACE)                                                                       \
  X(SELENIUM, "selenium", "Selenium", "\xC2\xB5g", TRACE)                                                                   \
  X(IODINE, "iodine", "Iodine", "\xC2\xB5g", TRACE)                                                                         \
  X(VITAMIN_A, "vitamin_a", "Vitamin A", "\xC2\xB5g", VITAMIN)                                                              \
  X(RETINOL, "retinol", "Retinol", "\xC2\xB5g", VITAMIN)                                                                    \
  X(BETA_CAROTENE, "beta_carotene", "Beta-carotene", "\xC2\xB5g", VITAMIN)                                                  \
  X(VITAMIN_D, "vitamin_d", "Vitamin D", "\xC2\xB5g", VITAMIN)                                                              \
  X(VITAMIN_E, "vitamin_e", "Vitamin E", "mg", VITAMIN)                                                                     \
  X(VITAMIN_K, "vitamin_k", "Vitamin K", "\xC2\xB5g", VITAMIN)                                                              \
  X(THIAMIN, "thiamin", "Thiamin", "mg", VITAMIN)                                                                           \
  X(RIBOFLAVIN, "riboflavin", "Riboflavin", "mg", VITAMIN)                                                                  \
  X(NIACIN, "niacin", "Niacin", "mg", VITAMIN)                                                                              \
  X(PANTOTHENIC, "pantothenic", "Pantothenic acid", "mg", VITAMIN)                                                          \
  X(B6, "b6", "Vitamin B6", "mg", VITAMIN)                                                                                  \
  X(B12, "b12", "Vitamin B12", "\xC2\xB5g", VITAMIN)                                                                        \
  X(FOLATE, "folate", "Folate", "\xC2\xB5g", VITAMIN)                                                                       \
  X(BIOTIN, "biotin", "Biotin", "\xC2\xB5g", VITAMIN)                                                                       \
  X(CHOLINE, "choline", "Choline", "mg", VITAMIN)                                                                           \
  X(VITAMIN_C, "vitamin_c", "Vitamin C", "mg", VITAMIN)                                                                     \
  X(PHYTATE, "phytate", "Phytate", "mg", OTHER)                                                                             \
  X(OXALATE, "oxalate", "Oxalate", "mg", OTHER)

enum nutrient {
#define X(id, key, name, unit, group) NUT_##id,
  NUTRIENT_LIST(X)
#undef X
      NUT_COUNT,
  NUT_NONE = 0xff
};
/* Of arrays that are worked through several at a time. */
enum { NUT_ROOM = (NUT_COUNT + 3) / 4 * 4 };

enum nutrient_group { NG_ENERGY, NG_PROXIMATE, NG_AMINO, NG_FATTY, NG_MINERAL, NG_TRACE, NG_VITAMIN, NG_OTHER, NG_COUNT };

struct nutrient_info {
  const char *key, *name, *unit;
  enum nutrient_group group;
};

extern const struct nutrient_info nutrient_info[NUT_COUNT];

/* By key ("met_cys") or by name as a label spells it ("Vitamin B6", "Fibre"), case folded; NUT_NONE when unknown. */
enum nutrient nutrient_by_key(struct span key);
enum nutrient nutrient_by_name(struct span name);
/* The name inside a sentence: "zinc", "vitamin A", "EPA + DHA". */
const char *nutrient_inside(struct arena *a, enum nutrient n);

#endif
