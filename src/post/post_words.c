/* The words around foods: who eats, how it is told, and what does not tell anything. */
#include "post/post_item.h"

static char small(char c) { return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c; }

/* Where a word of the list may begin: a blank and then its first letter, eight bytes at a time. */
static uint64_t zero_bytes(uint64_t v) { return (v - 0x0101010101010101U) & ~v & 0x8080808080808080U; }

static bool spells(const char *list, size_t at, size_t n, struct span word) {
  if (at + word.n > n || (at + word.n < n && list[at + word.n] != ' ')) return false;
  size_t i = 1;
  while (i < word.n && list[at + i] == small(word.p[i])) i++;
  return i == word.n;
}

/* Asked thousands of times a post, of lists of up to a hundred words. */
bool word_in_list(struct span word, const char *list, size_t n) {
  if (word.n == 0 || word.n > n) return false;
  char first = small(word.p[0]);
  uint64_t letter = 0x0101010101010101U * (uint8_t)first, blank = 0x0101010101010101U * ' ';
  if (list[0] == first && spells(list, 0, n, word)) return true;
  size_t at = 0;
  for (; at + 9 <= n; at += 8) {
    uint64_t here, next;
    memcpy(&here, list + at, 8);
    memcpy(&next, list + at + 1, 8);
    if ((zero_bytes(here ^ blank) & zero_bytes(next ^ letter)) == 0) continue;
    for (size_t i = at; i < at + 8; i++)
      if (list[i] == ' ' && list[i + 1] == first && spells(list, i + 1, n, word)) return true;
  }
  for (; at + 1 < n; at++)
    if (list[at] == ' ' && list[at + 1] == first && spells(list, at + 1, n, word)) return true;
  return false;
}

/* Asked of every word, many times: by its first letter. */
bool is_chatter(struct span w) {
  switch (w.n > 0 ? small(w.p[0]) : 0) {
  case 'a':
    return word_in(
        w,
        "a an are at as and also add adds added adding always about approximately approx around after all amount amounts");
  case 'b':
    return word_in(w, "be been being by buy bought bowl breakfast brekkie bed bedtime before between best basically bc "
                      "become becomes both but");
  case 'c':
    return word_in(w, "currently circa ca cat cats contains containing containes consisting consists");
  case 'd':
    return word_in(w, "do does did day daily dog dogs dinner during doing");
  case 'e':
    return word_in(w, "eat eats eating every each extra evening evenings everything everyone everybody");
  case 'f':
    return word_in(w, "for feed feeds feeding fed food folks");
  case 'g':
    return word_in(w, "get gets getting give gives given giving gave good great goes going gone guys");
  case 'h':
    return word_in(w, "his her has have had he him here haha hi hello hey hes he's having he'll");
  case 'i':
    return word_in(w, "its it's is in i it i'm im ive i've i'll ingredient ingredients including include includes");
  case 'j':
    return word_in(w, "just");
  case 'l':
    return word_in(w, "love loves loved like likes lunch lol last lasts");
  case 'm':
    return word_in(w, "my me make makes made mostly maybe meal meals morning mornings midday");
  case 'n':
    return word_in(w, "now normally night noon notes name");
  case 'o':
    return word_in(w, "of our on or only other ok okay");
  case 'p':
    return word_in(w, "plus put puts perhaps probably plain pup puppy please per portion");
  case 'q':
    return word_in(w, "quantity");
  case 'r':
    return word_in(w, "really roughly rest recipe receives receive");
  case 's':
    return word_in(w, "some she shes she's she'll so sorry side snack snacks supper splits split supplements supplement");
  case 't':
    return word_in(w, "time times the their to then they them this that these those there too take takes typically total "
                      "totals top topped treat treats tea thanks thank thx they're theyre that's thats there's");
  case 'u':
    return word_in(w, "us use uses used usually");
  case 'v':
    return word_in(w, "very");
  case 'w':
    return word_in(w, "was were with we who well worth we're we've");
  case 'y':
    return word_in(w, "your you yes");
  default:
    return false;
  }
}

bool begins_clause(struct span w) {
  return word_in(w,
                 "instead that which who because but since so when if while where he she they i we it you whatever although "
                 "though unless until "
                 "what why how just no not without cos coz cause");
}

bool is_meal_word(struct span w) {
  return word_in(w, "breakfast brekkie brekky lunch dinner supper tea morning mornings evening evenings night noon midday "
                    "am pm afternoon bedtime "
                    "snack snacks treat treats meal bowl supplements supplement extras extra toppers topper add-ons morgens "
                    "abends mittags "
                    "matin midi soir dessert feed");
}

bool is_animal_word(struct span w, enum species *species) {
  if (word_in(
          w,
          "cat cats moggies kitty kitten kitties feline moggy tomcat ragdoll siamese bengal persian maine-coon sphynx katze "
          "kater chat gatto gato tabby tortie moggie dsh dlh shorthair longhair burmese birman tuxedo calico")) {
    *species = SPECIES_CAT;
    return true;
  }
  if (word_in(w, "dog dogs pup puppy pooch doggo doggy canine bitch lab labrador retriever golden spaniel terrier collie "
                 "shepherd husky beagle staffy "
                 "staffordshire whippet lurcher greyhound poodle mutt rescue mix cross dachshund pug bulldog boxer "
                 "rottweiler doberman mastiff malinois "
                 "whippet pom pomeranian yorkie yorkshire westie cavapoo shih bichon maltese newfoundland bernese "
                 "weimaraner heeler "
                 "kelpie akita samoyed malamute saluki dane staffie ridgeback "
                 "podengo podenco mongrel cockalier lagotto dalmatian dobermann airedale pinscher weim barbet corgi pointer "
                 "setter vizsla hound jack russell chihuahua schnauzer cockapoo labradoodle hund "
                 "chien cane perro jrt gsd lab labs labx pittie pitbull pit bully frenchie cavalier sheepdog wolfhound "
                 "deerhound lurchers whippets greyhounds spaniels terriers labradors collies shepherds huskies poodles pugs "
                 "beagles dachshunds dachsie sausage-dog cockerpoo sprocker springer cocker leonberger rotti rottie basset "
                 "bloodhound papillon pekingese havanese shiba kelpies borzoi saint-bernard bernard chow keeshond dobe "
                 "dobie mini-poodle ridgie boxers puppies pups hounds retrievers")) {
    *species = SPECIES_DOG;
    return true;
  }
  return false;
}

bool is_vague(struct span w) { return word_in(w, "some few several little bit leftover leftovers occasional random"); }

struct span spelled_out(struct span w) {
  static const struct {
    const char *word, *is;
  } WORDS[] = {{"vit", "vitamin"},
               {"vits", "vitamin"},
               {"veg", "vegetables"},
               {"veggies", "vegetables"},
               {"veggie", "vegetables"},
               {"ev", "extra virgin"},
               {"evoo", "olive oil"},
               {"acv", "apple cider vinegar"},
               {"glm", "green lipped mussel"},
               {"w", "with"},
               {"grn", "green"},
               {"pwdr", "powder"},
               {"pdr", "powder"},
               {"powd", "powder"},
               {"chix", "chicken"},
               {"chkn", "chicken"},
               {"chick'n", "chicken"},
               {"brst", "breast"},
               {"tky", "turkey"},
               {"swt", "sweet"},
               {"tatties", "potatoes"},
               {"potatos", "potatoes"},
               {"potatoe", "potato"},
               {"browned", "pan-fried"},
               {"seared", "pan-fried"},
               {"natural", "plain"},
               {"wt", "weight"},
               {"boned", "boneless"},
               {"wgt", "weight"},
               {"brocc", "broccoli"},
               {"spud", "potato"},
               {"spuds", "potatoes"},
               {"roo", "kangaroo"},
               {"mutton", "lamb"},
               {"hogget", "lamb"},
               {"brekky", ""},
               {"yog", "yogurt"},
               {"yoghourt", "yogurt"},
               {"mins", "mince"},
               {"uncooked", "raw"},
               {"chx", "chicken"},
               {"inc", "with"},
               {"incl", "with"},
               {"org", "organic"},
               {"avo", "avocado"},
               {"tumeric", "turmeric"},
               {"porridge", ""},
               {"livr", "liver"},
               {"omelette", "egg"},
               {"multivit", "multivitamin"},
               {"pasteurised", ""},
               {"scrambled", "scrambled"}};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(w, WORDS[i].word)) return span_of(WORDS[i].is);
  return w;
}

const char *cooked_by(struct span w) {
  static const struct {
    const char *words, *state;
  } METHODS[] = {{"boil boils boiling", "boiled"}, {"simmer simmers", "simmered"},
                 {"steam steams", "steamed"},      {"bake bakes", "baked"},
                 {"roast roasts", "roasted"},      {"poach poaches", "poached"},
                 {"cook cooks", "cooked"},         {"grill grills", "grilled"},
                 {"fry fries", "fried"},           {"microwave microwaves", "microwaved"}};
  for (size_t i = 0; i < COUNT_OF(METHODS); i++)
    if (word_in(w, METHODS[i].words)) return METHODS[i].state;
  return NULL;
}

const char post_animals[] =
    "beef lamb mutton pork chicken turkey duck rabbit venison veal goat quail goose ox bison kangaroo salmon";

bool post_names_animal(struct span words, struct arena *arena) {
  struct tokens t = tokens_of(words, arena);
  for (size_t i = 0; i < t.count; i++)
    if (t.item[i].kind == TOKEN_WORD && word_in(t.item[i].word, post_animals)) return true;
  return false;
}

const char *post_joined(struct post_reader *r, const char *a, const char *b) {
  if (!a[0] || !b[0]) return a[0] ? a : b;
  struct buf out;
  buf_init(&out, r->arena, strlen(a) + strlen(b) + 8);
  buf_addf(&out, "%s; %s", a, b);
  return buf_text(&out);
}

bool post_tells_often(struct post_reader *r, const struct item *item) {
  struct tokens t = tokens_of(span_of(item->text), r->arena);
  for (size_t k = 0; k < t.count; k++)
    if (frequency_at(&t, k).tokens > 0) return true;
  return false;
}
