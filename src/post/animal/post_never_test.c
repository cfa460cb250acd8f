/* post_never_test.c: what is never to be fed, as owners say it. The expectations are a careful reader's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "tests/support/fresh_arena.h"
#include "tests/support/posted.h"

#define BOWL "20 kg dog, 5 years, neutered. 300 g turkey mince, 100 g rice. "

/* The header that the strict text has; "" none. */
static void never_is_heard(void **state) {
  static const struct {
    const char *post, *header;
  } ROW[] = {
      {BOWL "Nothing else for 6 months because of allergies. Please no chicken or beef!", "Never: chicken, beef\n"},
      {BOWL "She's allergic to chicken.", "Never: chicken\n"},
      {BOWL "Chicken gives her itchy skin", "Never: chicken\n"},
      {BOWL "Beef makes him scratch like mad.", "Never: beef\n"},
      {BOWL "He can't have fish, and won't touch liver", "Never: fish, liver\n"},
      {BOWL "no dairy please", "Never: dairy\n"},
      {BOWL "He has a chicken allergy so no eggs either!", "Never: chicken, eggs\n"},
      {BOWL "Allergies: chicken, beef, dairy", "Never: chicken, beef, dairy\n"},
      {BOWL "Not allowed: cheese, bones, his beloved liver treats", "Never: cheese, liver\n"},
      {BOWL "Sensitive to beef and lamb.", "Never: beef, lamb\n"},
      {BOWL "Pork upsets his tummy.", "Never: pork\n"},
      {BOWL "We avoid seafood because of allergies.", "Never: seafood\n"},
      {BOWL "I never feed pork", "Never: pork\n"},
      {BOWL "What else can I add? No fish please, she hates it", "Never: fish\n"},
      {BOWL "No raw fish please", "Never: raw fish\n"},
      {BOWL "no she hates fish", "Never: fish\n"},
      {BOWL "Nope he won't touch liver.", "Never: liver\n"},
      {BOWL "No my boy is allergic to beef", "Never: beef\n"},
      {BOWL "no he isn't allergic to beef", ""},
      {BOWL "she no longer hates fish", ""},
      {BOWL "we tried liver and she got the runs so no liver.", "Never: liver\n"},
      {BOWL "He chokes on chicken necks.", "Never: whole bones\n"},
      {BOWL "Chokes on bones.", "Never: whole bones\n"},
      {BOWL "She can't manage bones any more", "Never: whole bones\n"},
      {BOWL "He has no teeth left.", "Never: whole bones\n"},
      {BOWL "She has lost most of her teeth", "Never: whole bones\n"},
      {BOWL "He broke a tooth on a marrow bone", "Never: whole bones\n"},
      {BOWL "His teeth are fine and he loves bones. She gulps her food down.", ""},
      {BOWL "My other dog chokes on bones.", ""},
      {BOWL "He is fed vegan.", "Never: meat, fish, shellfish, eggs, dairy, animal products\n"},
      {BOWL "No animal products", "Never: animal products, meat, fish, shellfish, eggs, dairy\n"},
      {BOWL "We are vegetarian and I want no meat or fish in the house.", "Never: meat, fish, shellfish\n"},
      {"Vegetarian diet for my 20 kg dog: 300 g tofu, 100 g rice", "Never: meat, fish, shellfish\n"},
      {"My cat is 4 kg, I want her vegan: 80 g tofu, 40 g chickpeas", "Never: meat, fish, shellfish, eggs, dairy"},
      /* a danger is never proposed anyway, and what is a fact is no wish */
      {BOWL "No garlic!!", ""},
      {BOWL "No onions please, ever", ""},
      {BOWL "No liver in it yet!", ""},
      {BOWL "No organs.", ""},
      {BOWL "No supplements as the vet said it's fine.", ""},
      {BOWL "There is no fish in it, please tell me what that does", ""},
      /* denied, past, asked, or of somebody else */
      {BOWL "He isn't allergic to chicken. No allergies.", ""},
      {BOWL "She used to be allergic to beef", ""},
      {BOWL "Should I avoid beef?", ""},
      {BOWL "Is a vegan diet ok?", ""},
      {BOWL "My sister's dog is allergic to beef.", ""},
      {BOWL "My other dog can't have fish.", ""},
      {BOWL "I'm vegan but he isn't.", ""},
      {BOWL "1 vegan omega 3 capsule", ""},
      {BOWL "She won't eat liver unless I fry it", ""},
      {BOWL "I avoid liver every day", ""},
      {BOWL "He doesn't like the turkey much.", ""},
      {BOWL "He doesn't like fish much.", "Never: fish\n"},
      {"I'm writing about Smudge, 4.6 kg cat: 100 g turkey. Fudge, 5.9 kg, doesn't like egg.", ""},
  };
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct post post = posted(ROW[i].post);
    bool fits = ROW[i].header[0] ? strstr(post.recipe, ROW[i].header) != NULL : strstr(post.recipe, "Never:") == NULL;
    if (fits) continue;
    print_error("'%s' became\n%s", ROW[i].post, post.recipe);
    wrong++;
  }
  assert_int_equal(wrong, 0);
}

/* What is fed and never to be fed is counted, and asked. */
static void fed_all_the_same_is_asked(void **state) {
  (void)state;
  struct post post = posted("20 kg dog. 300 g turkey mince, 100 g rice. No poultry please");
  assert_non_null(strstr(post.recipe, "Never: poultry\n"));
  assert_non_null(strstr(post.recipe, "\n300 g turkey mince"));
  assert_non_null(strstr(post.recipe, "# ask: Is '300 g turkey mince' fed? You write that there is to be no poultry."));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      T(never_is_heard),
      T(fed_all_the_same_is_asked),
  };
  return cmocka_run_group_tests_name("post_never", tests, NULL, NULL);
}
