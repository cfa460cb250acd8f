/* app_post_test.c: an animal that is told beside a post, by an option or a text of animals. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "app/app.h"
#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static struct app_check_answer check(const char *post, const struct animal *one_off, const char *animals, const char *name) {
  struct app_check_request q = {
      .recipe = {"post", span_of(post)}, .one_off = one_off, .for_name = name, .ask = REQUEST_DEFAULT};
  struct app_check_answer a;
  if (animals) q.animals = (struct app_input){"a.animals", span_of(animals)};
  q.ask.posted = true;
  app_check(built_library(), &q, &a, &arena);
  assert_non_null(a.result);
  return a;
}

static bool asks(const struct app_check_answer *a, const char *words) {
  for (size_t i = 0; i < a->post->question_count; i++)
    if (strstr(a->post->question[i].ask, words)) return true;
  return false;
}

static void is_neither_asked_nor_doubted(void **state) {
  (void)state;
  struct animal cat = animal_plain(SPECIES_CAT, 4);
  struct app_check_answer a = check("90 g chicken thigh a day", &cat, NULL, NULL);
  assert_false(asks(&a, "weigh") || asks(&a, "dog or a cat") || asks(&a, "How old"));
  assert_int_equal(a.result->refusal, REFUSE_NOT);
  assert_non_null(strstr(a.post->recipe, "Cat: 4 kg\n"));
  a = check("My cat 4 kg and dog 20 kg. Cat: 100 g turkey mince. Dog: 400 g beef mince.", &cat, NULL, NULL);
  assert_int_equal(a.result->ration->line_count, 1);
}

static const char JUNIPER[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18.2 kg\n";

static void of_a_text_of_animals(void **state) {
  (void)state;
  struct app_check_answer a = check("300 g beef mince", NULL, JUNIPER, "Juniper");
  assert_false(asks(&a, "weigh") || asks(&a, "dog or a cat"));
  a = check("300 g beef mince", NULL, JUNIPER, NULL); /* the only one, where the post tells of none */
  assert_false(asks(&a, "weigh"));
  a = check("Our cat, 4 kg, gets 100 g turkey mince", NULL, JUNIPER, NULL);
  assert_int_equal(a.result->animal->species, SPECIES_CAT);
}

/* That it is ill is news, wherever its weight was told. */
static void what_the_post_alone_tells(void **state) {
  (void)state;
  struct animal cat = animal_plain(SPECIES_CAT, 4);
  struct app_check_answer a = check("He has CKD. 90 g chicken thigh a day", &cat, NULL, NULL);
  assert_int_equal(a.result->refusal, REFUSE_UNWELL);
  a = check("She is in whelp. 300 g beef mince", NULL, JUNIPER, "Juniper");
  assert_int_equal(a.result->refusal, REFUSE_PREGNANT);
  a = check("My puppy gets 300 g beef mince", NULL, JUNIPER, "Juniper"); /* six years old */
  assert_int_equal(a.result->refusal, REFUSE_NOT);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(is_neither_asked_nor_doubted), cmocka_unit_test(of_a_text_of_animals),
                                     cmocka_unit_test(what_the_post_alone_tells)};
  return cmocka_run_group_tests(tests, fresh, done);
}
