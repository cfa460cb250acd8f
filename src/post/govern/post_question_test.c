/* What an owner asks of the bowl, in words as they stand in posts, and what is no such question. The readings are those of a
 * person who was told only the sentences. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "base/buf.h"
#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static const char BOWL[] = "Collie, 20 kg, 5 years, neutered.\n300 g beef heart\n20 g beef liver\n100 g rice\n";

/* "liver[vitamin_a copper] weight[]": what each is about, and the nutrients that bear on it. */
static const char *asked_of(const char *text, struct arena *a) {
  static const char *const OF[] = {"", "ratio", "amount", "weight", "liver", "bone", "health", "food", "less", "exchange", "adding", "supplement"};
  struct post post;
  struct buf b;
  buf_init(&b, a, 4000);
  post_read(built_library(), span_of(text), NULL, &post, a);
  for (size_t i = 0; i < post.asks; i++) {
    const struct owners_question *q = &post.asked[i];
    buf_addf(&b, "%s%s[", i > 0 ? " " : "", OF[q->of]);
    for (size_t k = 0; k < q->nutrients; k++) buf_addf(&b, "%s%s", k > 0 ? " " : "", nutrient_info[q->nutrient[k]].key);
    buf_addf(&b, "]%s%s%s%s", q->leaves_out ? " out" : "", q->how_often ? " often" : "", q->which ? " which" : "",
             q->half ? " half" : "");
    if (q->much) buf_adds(&b, " much");
    if (q->food && q->food[0]) buf_addf(&b, " '%s'", q->food);
    if (q->other) buf_addf(&b, " by '%s'", q->other);
  }
  return buf_text(&b);
}

static void what_is_asked_is_heard(void **state) {
  static const struct {
    const char *says, *of;
  } ROW[] = {
      {"Too much vitamin A?", "[vitamin_a] much"},
      {"Is it too much liver? Someone said vitamin A.", "liver[vitamin_a copper] [vitamin_a]"},
      {"is that too much liver do you think", "liver[vitamin_a copper]"},
      {"Do I have to worry about vit A?", "[vitamin_a]"},
      {"I'm worried about the copper.", "[copper]"},
      {"Is the calcium right?", "[calcium]"},
      {"Can I leave the kelp out?", "[iodine] out 'kelp'"},
      {"can i leave out the eggshell", "[calcium] out 'eggshell'"},
      {"Should I skip the liver?", "liver[vitamin_a copper] out 'liver'"},
      {"Could I do without the fish oil?", "[epa_dha] out 'fish oil'"},
      {"Do I need to stop giving the kelp?", "[iodine] out 'kelp'"},
      {"Could I drop the liver?", "liver[vitamin_a copper] out 'liver'"},
      {"Could I drop the rice?", "food[] out 'rice'"},
      {"Can I swap the liver for kidney?", "exchange[] 'liver' by 'kidney'"},
      {"Could I use salmon instead of the beef heart?", "exchange[] 'beef heart' by 'salmon'"},
      {"Should I replace the rice with oats?", "exchange[] 'rice' by 'oats'"},
      {"Is cheese ok?", "adding[] 'cheese'"},
      {"Can I add some cottage cheese?", "adding[] 'cottage cheese'"},
      {"can he have blueberries?", "adding[] 'blueberries'"},
      {"Is it ok to give banana", "adding[] 'banana'"},
      {"He loves cheese.", ""},
      {"I swap the liver for kidney on Sundays.", ""},
      {"can we leave out the beef heart", "food[] out 'beef heart'"},
      {"Is taurine needed daily or is twice a week ok?", "[taurine] often"},
      {"How often does she need iodine?", "[iodine] often"},
      {"Which bone could I give instead?", "bone[calcium] which"},
      {"What bone can I give her instead of chicken necks", "bone[calcium] which 'chicken necks'"},
      {"If I give her less of it what falls short first?", "less[]"},
      {"if she gets less, what falls short first?", "less[]"},
      {"can i just give him less of it?", "less[]"},
      {"Can I halve his food to get it over with?", "less[] half"},
      {"I'm thinking of a crash diet.", "less[] half"},
      {"We want to put her on half rations", "less[] half"},
      {"She had a crash diet at the shelter.", ""},
      {"Should I give half a tin?", ""},
      {"What hangs on the rice alone?", "food[] 'rice'"},
      {"what depends on the beef heart?", "food[] 'beef heart'"},
      {"Is he missing out on copper?", "[copper]"},
      {"Enough calcium?", "[calcium]"},
      {"should there be more calcium", "[calcium]"},
      {"Does he get enough calcium and zinc?", "[calcium] [zinc]"},
      {"Ca:P ratio ok?", "ratio[calcium phosphorus]"},
      {"Is the ratio ok?", "ratio[]"},
      {"Does he need any supplements?", "supplement[]"},
      {"Do I need to add anything?", "supplement[]"},
      {"Can she still have that much protein at 13?", "[protein] much"},
      {"Does so much protein damage the kidneys?", "[protein] much"},
      {"What about the calcium to phosphorus ratio?", "ratio[calcium phosphorus]"},
      {"Is it enough?", "amount[]"},
      {"Am I overfeeding?", "amount[]"},
      {"How much should I feed him?", "amount[]"},
      {"Is he too fat?", "weight[]"},
      {"Should he lose weight?", "weight[]"},
      {"Is this too fatty?", "[fat]"},
      {"Is there too much fat in it, and is the protein ok?", "[fat] much [protein] much"},
      {"Any idea if he gets enough omega 3?", "[epa_dha]"},
      {"Do I need taurine?", "[taurine]"},
      {"also is the liver oil too much thanks x", "[vitamin_a vitamin_d] much"},
      {"Would bones be better?", "bone[calcium]"},
      {"His coat is dull, what am I missing?", "health[zinc linoleic epa_dha copper vitamin_a protein]"},
      {"He is itchy all the time.", "health[zinc linoleic epa_dha vitamin_e]"},
      {"He has had loose stools for two weeks.", "health[fat]"},
      {"Why does he have white poo?", "health[calcium]"},
      {"He have sometimes white poop hard. Is good?", "health[calcium]"},
      {"He has sometimes white hard stools.", "health[calcium]"},
      {"Often his stool is hard and white.", "health[calcium]"},
      {"She gets chalky poos.", "health[calcium]"},
      {"He is always tired, is it the food?", "health[]"},
  };
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct buf b;
    buf_init(&b, &arena, 2000);
    buf_addf(&b, "%s%s\n", BOWL, ROW[i].says);
    const char *of = asked_of(buf_text(&b), &arena);
    if (strcmp(of, ROW[i].of) == 0) continue;
    print_error("'%s' asks about '%s', heard was '%s'\n", ROW[i].says, ROW[i].of, of);
    fail();
  }
}

static void what_is_only_told_is_not(void **state) {
  static const char *const ROW[] = {
      "Thanks for reading!",
      "What do you think?",
      "Is this balanced?",
      "He loves his liver.",
      "The vet gave us a calcium talk once.",
      "No itching since we left the kibble.",
      "Her coat was dull before.",
      "He had loose stools on kibble.",
      "The coat is shiny now, never itchy.",
      "10 g lamb liver, ok?",
      "My neighbour's dog is itchy.",
      "My sister's collie has the runs.",
  };
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    struct buf b;
    buf_init(&b, &arena, 2000);
    buf_addf(&b, "%s%s\n", BOWL, ROW[i]);
    const char *of = asked_of(buf_text(&b), &arena);
    if (of[0] == '\0') continue;
    print_error("'%s' asks about nothing, heard was '%s'\n", ROW[i], of);
    fail();
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(what_is_asked_is_heard), T(what_is_only_told_is_not)};
  return cmocka_run_group_tests_name("post_question", tests, NULL, NULL);
}
