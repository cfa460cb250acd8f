/* constant_keys.h: the single figures of data/constants.tsv that the arithmetic needs, by their key.
 *
 * A key that the table lacks reads as NaN, which shows in every result that needed it. Layer: foods. */
#ifndef BW_CONSTANT_KEYS_H
#define BW_CONSTANT_KEYS_H

/* The animal */
#define K_METABOLIC_EXPONENT "metabolic-exponent" /* dog 0.75, cat 0.67 */
#define K_CONDITION_STEP "condition-step"         /* 0.10: excess over the ideal weight per point of condition above ideal */
#define K_CONDITION_IDEAL "condition-ideal"       /* 5 of 9 */
#define K_ENERGY_SD_SHARE "energy-sd-share"       /* 0.30: one standard deviation between animals, share of the mean */

#define K_UNCOUNTED_PORTIONS "uncounted-portions" /* 3 usual largest portions of a food whose amount nobody says */

#define K_SPOONED_MOST "spooned-most" /* 1.5 g at most in a millilitre of what is measured by the spoon */
#define K_SNACK_ENERGY "snack-energy" /* 3.5 kcal at least in a gram of dry matter of what pets are treated to */

#define K_TISSUE_ENERGY "tissue-energy" /* 7350 kcal per kg of weight change, 7000 to 7700 */
#define K_LOSS_RATE "loss-rate"         /* per cent of the weight a week: what is safe, low to high */

#define K_WATERY_SHARE "watery-share" /* per cent of the food: vegetables and fruit */

#define K_OVERWEIGHT_FROM "overweight-from" /* 10 per cent above the ideal weight */

#define K_LOSS_ENERGY "loss-energy" /* kcal per kg^exponent of ideal weight that brought loss, low to high */
#define K_LOSS_ENERGY_EXPONENT "loss-energy-exponent" /* dog 0.75, cat 0.711 */

/* Energy of food, kcal per g (natural foods: dog 4-9-4, cat 4-8.5-4) */
#define K_ATWATER_PROTEIN "atwater-protein"
#define K_ATWATER_FAT "atwater-fat"
#define K_ATWATER_CARBOHYDRATE "atwater-carbohydrate"

/* Energy of food in four steps: gross energy (kcal per g), digestibility (% ; % per % fibre of dry matter), urine (kcal per
 * g protein) */
#define K_GROSS_PROTEIN "gross-energy-protein"
#define K_GROSS_FAT "gross-energy-fat"
#define K_GROSS_CARBOHYDRATE "gross-energy-carbohydrate"
#define K_DIGESTIBILITY_START "digestibility-total-fiber-start" /* with total dietary fibre: dog 96.6, cat 95.6 */
#define K_DIGESTIBILITY_SLOPE "digestibility-total-fiber-slope" /* dog 0.95, cat 0.89 */
#define K_URINARY_LOSS "urinary-loss-protein"                   /* dog 1.04, cat 0.77 */

/* Vitamin A */
#define K_CAROTENE_FACTOR "carotene-to-retinol" /* ug retinol per ug beta-carotene: dog 0.25 (833 IU a mg), cat 0 */

/* Vitamin E that the fat brings with it, mg alpha-tocopherol per g */
#define K_E_PER_PUFA "vitamin-e-per-pufa"         /* 0.6, for linoleic, arachidonic and alpha-linolenic acid */
#define K_E_PER_EPA "vitamin-e-per-epa"           /* 1.5 */
#define K_E_PER_DHA "vitamin-e-per-dha"           /* 1.8 */
#define K_E_PER_FISH_OIL "vitamin-e-per-fish-oil" /* cat only: 10 IU a g of oil, in mg */

/* Arginine, g per g of protein above the standard's own protein figure (FEDIAF) */
#define K_ARGININE_PER_PROTEIN "arginine-per-protein" /* dog 0.01, cat 0.02 */

/* Methionine above its need that may stand in for 1 g of choline; said, never counted */
#define K_METHIONINE_FOR_CHOLINE "methionine-for-choline"
/* Gram of salt per kg of body weight from which signs of poisoning are known; sodium in a gram of salt */
#define K_SALT_SIGNS "salt-signs"
#define K_SODIUM_OF_SALT "sodium-share-of-salt"
/* Mercury: mg per kg of tuna, and mg per kg of body weight a day that harmed cats */
#define K_MERCURY_LIGHT_TUNA "mercury-tuna-light"
#define K_MERCURY_OTHER_TUNA "mercury-tuna-other"
#define K_MERCURY_HARMS "mercury-harms"
/* Of a nutrient, in its own unit per kg of body weight at once: harm or worse. The note says what is known. */
#define K_TOXIC_VITAMIN_D "toxic-vitamin_d"
#define K_TOXIC_IRON "toxic-iron"
#define K_TOXIC_ZINC "toxic-zinc"
#define K_TOXIC_SELENIUM "toxic-selenium"
#define K_TOXIC_COPPER "toxic-copper"
#define K_TOXIC_IODINE "toxic-iodine"
/* What the strongest usual tablet holds of a nutrient, in its own unit; its key follows. */
#define K_USUAL_TABLET "usual-tablet-"
/* Phytate to zinc, mol to mol: where growth fell at 0.75 % and at 1.75 % calcium of dry matter */
#define K_PHYTATE_ZINC "phytate-zinc-mid"
#define K_PHYTATE_ZINC_HIGH_CALCIUM "phytate-zinc-mid-high-calcium"

/* 1 where bacteria of the gut make enough for a healthy adult of the species; absent: not counted on */
#define K_GUT_VITAMIN_K "gut-synthesis-vitamin_k"
#define K_GUT_BIOTIN "gut-synthesis-biotin"
/* Cat: fish above this share of dry matter, and vitamin K counts again. */
#define K_FISH_SHARE_VITAMIN_K "vitamin-k-fish-share"

/* Molar masses, g per mol */
#define K_MOLAR_PHYTATE "molar-mass-phytate"
#define K_MOLAR_ZINC "molar-mass-zinc"
#define K_MOLAR_CALCIUM "molar-mass-calcium"

#endif
