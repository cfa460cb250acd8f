/* The verbs. */
#include "base/table.h"
#include "cli/run.h"

static const char STRICTLY_JUDGED[] =
    "Exit codes: 0 computed; 1 computed with --strict, and something is short or over; 2 usage; 3 input not understood; 4 "
    "refused for the animal's sake; 6 file or system trouble.";
static const char JUDGED[] =
    "Exit codes: 0 computed; 2 usage; 3 input not understood; 4 refused for the animal's sake; 6 file or system trouble.";
static const char LOOKED_UP[] = "Exit codes: 0 computed; 2 usage; 3 input not understood; 6 file or system trouble.";
static const char SEARCHED[] =
    "Exit codes: 0 computed; 2 usage; 3 input not understood; 4 refused for the animal's sake; 5 none exists under these "
    "limits, or none was found before the search ended: the answer says which; 6 file or system trouble.";
static const char WEEKS[] =
    "Exit codes: 0 computed; 2 usage; 3 input not understood; 4 refused for the animal's sake; 5 with --rotate: no rotation "
    "meets everything, or none was found before the search ended; 6 file or system trouble.";
static const char WRITTEN[] = "Exit codes: 0 written; 2 usage; 3 input not understood; 6 file, store or system trouble.";
static const char SERVED[] = "Exit codes: 0 stopped, or copied; 2 usage; 6 file, store or system trouble.";

const struct verb_spec verb_spec[] = {
    {"check", "FILE...|FOLDER", "judge a recipe for an animal: the main job",
     "Reads each recipe and says whether it gives the animal what it needs: energy, every nutrient against its allowance "
     "and upper limit, what falls short, what nobody knows, and which food supplies what. '-' reads standard input. Several "
     "recipes are answered one after the other (with --json one object a line); a folder has every text answered, on all "
     "cores, "
     "with a summary (--out keeps the answers). Without an animal only the composition of "
     "the food is shown.",
     "bowlwright check examples/weeknight-bowl.recipe --for Juniper",
     "is this bowl enough for Juniper, who is described in the examples folder?", 1, -1, OPERANDS_ARE_TEXTS, NULL,
     STRICTLY_JUDGED, verb_check},
    {"mend", "FILE", "the smallest change to a recipe that meets every need",
     "Finds the smallest change to a recipe that gives the animal what it needs. It stays your dinner: what is dangerous "
     "goes out; your foods stay, none cut by more than a third unless nothing else helps; what is added keeps to usual "
     "portions, eggs and capsules whole or in halves; then as few lines as possible, then as little of them as possible. "
     "The answer is your own text with lines taken out and put in, the reason for each, and what moved. Foods are offered "
     "from the recipe, from a larder, from your own labels, then from a short list of ordinary foods and supplements. "
     "When no such change exists, it names the limits that contradict each other (exit code 5).",
     "bowlwright mend examples/weeknight-bowl.recipe --for Juniper", "what would make this bowl enough for Juniper?", 1, 1,
     OPERANDS_ARE_TEXTS, NULL, SEARCHED, verb_mend},
    {"swap", "FILE LINE", "foods that could take a line's place, with what each repairs and breaks",
     "Ranks the foods of the library for one line of a recipe: how much of each gives the same energy (or weight), which "
     "nutrients it repairs and which it breaks, and what it costs in fat and food. LINE is the line's number in the text or "
     "words from it. Only foods with the same role in the bowl are compared; --any-part compares all. With a "
     "larder, prices are shown.",
     "bowlwright swap examples/weeknight-bowl.recipe \"lamb liver\" --for Juniper", "which other liver would do more?", 1,
     -1, OPERANDS_ARE_TEXTS, NULL, JUDGED, verb_swap},
    {"compose", "LARDER", "a recipe from the foods that you have, under limits",
     "Finds the amounts of the foods in a larder text that give the animal everything it needs, within the ranges and "
     "limits that it states: the cheapest, the lightest (least food), the leanest or the nearest to a pattern. Several "
     "animals get one "
     "base and a topper for each. Amounts are what a kitchen can measure; the text that comes out can be checked like any "
     "other. When no recipe exists, it names the limits that contradict each other, the nearest recipe and the "
     "foods that would help (exit code 5).",
     "bowlwright compose examples/chest-freezer.larder --for Juniper", "what can be made from the chest freezer?", 1, 1,
     OPERANDS_ARE_TEXTS, "an animal", SEARCHED, verb_compose},
    {"reply", "FILE|FOLDER", "the answer to a posted recipe, ready to paste under it",
     "Writes what somebody who knows the trade would answer to the owner: dangers first, what is good, what is missing or "
     "too "
     "much, the change in the owner's own lines, what to watch, and how sure this is. A letter of 200 to 400 words; --lines "
     "5 "
     "for a few lines, --full for everything. Markdown, or plain text with --plain. With a folder, "
     "every text gets its reply in --out. Read it before you send it.",
     "bowlwright reply examples/weeknight-bowl.recipe --for Juniper --lines 5", "what would I write under this post?", 1, 1,
     OPERANDS_ARE_TEXTS, NULL, JUDGED, verb_reply},
    {"sheet", "FILE|FOLDER", "a sheet for the kitchen wall, HTML or PDF",
     "Writes the recipe as a sheet to print: the bowl per day and per meal, a batch for several days, what to buy (peel, "
     "shell, bone and cooking losses included), what it costs if a larder gives prices, boxes, how long it keeps, how to "
     "change over to it; then the review, every nutrient on its rail, what nobody knows, and where each figure comes from. "
     "Dangers come first. One file that needs no others.",
     "bowlwright sheet examples/weeknight-bowl.recipe --for Juniper --days 7",
     "a page on standard output; with --out bowl.html or --out bowl.pdf a file", 1, 1, OPERANDS_ARE_TEXTS, NULL, JUDGED,
     verb_sheet},
    {"week", "[FILE...]", "days and weeks: what averages out and what does not",
     "Judges days in a row: a recipe whose lines name their days, or a plan (a text that begins with 'Plan:' and says which "
     "day "
     "has which recipe) with the recipes that it names, which may also lie beside it. With --journal it judges what was "
     "really eaten. With --rotate it works out which of several recipes to feed on which day. For each nutrient it sets the "
     "leanest and the richest run of as many days as the body can bridge against the allowance and the upper limit, and "
     "says "
     "which days fail and why, what averaging covers, and what it does not help.",
     "bowlwright week examples/november.plan --for examples/saltmarsh.animals", "does the month add up for Juniper and Pim?",
     0, -1, OPERANDS_ARE_TEXTS, NULL, WEEKS, verb_week},
    {"trend", "JOURNAL [RECIPE...]", "where the weight goes, and the animal's own need",
     "Reads a journal and says which way the animal's weight is going and how sure that is, how much energy this "
     "animal needs, with an interval, what the equation says, and a forecast as a band. Readings that are far off are asked "
     "about and kept; days that nobody wrote down are not known, never zero. The recipes that the days name may be given or "
     "lie beside the journal. With too few data it says what is missing and how many more weighings would do.",
     "bowlwright trend examples/autumn.journal --for Juniper --until 2026-11-02",
     "is Juniper losing weight, and what does she need?", 1, -1, OPERANDS_ARE_TEXTS, "an animal", JUDGED, verb_trend},
    {"slim", "[RECIPE]", "a weight plan for an overweight adult, with a bowl that is enough",
     "From the ideal weight (or the condition score) in the animal's text: energy a day in steps at a safe rate of loss and "
     "never "
     "below a floor, the days to weigh with the weight to expect on each, when to stop and see the veterinarian. With a "
     "recipe it "
     "is mended so that it meets every allowance at the lowest energy of the plan. With --journal weight and need are the "
     "animal's "
     "own.",
     "bowlwright slim --for Moss --journal examples/autumn.journal",
     "how does Moss, 34 kg by the journal, get to his ideal weight?", 0, 1, OPERANDS_ARE_TEXTS, NULL, SEARCHED, verb_slim},
    {"journal", "[FILE]", "the journal: checked, put in order, added to, as a table, in the store",
     "Reads a journal of what was weighed and eaten, one fact a line, asks about what can hardly be right, and writes it "
     "out again "
     "tidied, or as a table. --add writes one more line to the file, if it is understood. With --store every line is kept "
     "in the "
     "store beside its day and animal, with every earlier state; without a file the journal is read from there. 'week "
     "--journal' "
     "says what it amounts to.",
     "bowlwright journal examples/saltmarsh.journal --csv", "the journal as a table for a spreadsheet", 0, 1,
     OPERANDS_ARE_TEXTS, NULL, WRITTEN, verb_journal},
    {"need", "[ANIMALS-FILE]", "energy and allowances of an animal, with their origin",
     "Shows what the animal needs a day: energy with its equation and range, and every allowance and upper limit with the "
     "row of the standard it comes from. Several animals in a file are answered one after the other.",
     "bowlwright need --dog 18kg", "the needs of an adult dog of 18 kg", 0, 1, OPERANDS_ARE_ANIMALS, "an animal", JUDGED,
     verb_need},
    {"side", "FILE|FOOD...", "two to six recipes or foods side by side",
     "Sets two to six recipes on the same rails, one letter each, with the differences first: short here and met there, "
     "then the largest differences. Anything that is not a file is a food, in words or as a pin; recipes and foods do not "
     "mix. With "
     "--cooked one recipe is set beside itself: raw, simmered with its broth, simmered and drained, baked.",
     "bowlwright side --food \"lamb liver\" --food \"chicken liver\"", "what one has and the other lacks", 0, -1,
     OPERANDS_ARE_TEXTS, NULL, JUDGED, verb_side},
    {"foods", "WORDS...", "find food records by what you would call the food",
     "Finds food records. Words may stand in any order; plurals, small typos and phrases such as 'skin on' or '90/10' are "
     "understood. The code in brackets, written after a food in a recipe, pins that record.",
     "bowlwright foods lamb liver", "the records of lamb liver, best fit first", 1, -1, OPERANDS_ARE_WORDS, NULL, LOOKED_UP,
     verb_foods},
    {"food", "PIN|WORDS...", "show one food record, with the origin of every value",
     "Shows one record with all its values, how far each may vary and where it comes from. Takes a pin such as usda:17199, "
     "or words that name one food.",
     "bowlwright food usda:17199", "one record, value by value", 1, -1, OPERANDS_ARE_WORDS, NULL, LOOKED_UP, verb_food},
    {"library", "", "what the food library holds and where it came from",
     "Shows how many foods and values the library holds and how well each is known, every source with its licence, the "
     "error of "
     "the patterns behind estimated values, and what was set aside and why.",
     "bowlwright library", "sources, sizes, errors", 0, 0, OPERANDS_ARE_WORDS, NULL, LOOKED_UP, verb_library},
    {"serve", "", "the page in a browser, with its texts kept on this machine",
     "Serves the page to the browser on this machine and keeps its texts, with every earlier version, in one file. The "
     "address is printed; Ctrl-C stops. Nobody beyond this machine can reach it unless that is asked for twice. 'make "
     "serve' builds the program with the page in it. With --backup the file is copied instead, while another run may go on "
     "writing.",
     "bowlwright serve", "open http://127.0.0.1:8427/, write, and find it there tomorrow", 0, 0, OPERANDS_ARE_WORDS, NULL,
     SERVED, verb_serve},
};
ROW_FOR_EACH(verb_spec, VERB_COUNT);

/* "dinner.txt" is answered in "dinner.txt.reply.md". */
static const char *check_ending(const struct options *o) { return o->json ? ".check.json" : ".check.txt"; }
static const char *reply_ending(const struct options *o) {
  return o->json ? ".reply.json" : o->plain ? ".reply.txt" : ".reply.md";
}

static const char *sheet_ending(const struct options *o) {
  return o->json ? ".sheet.json" : o->format < FORMAT_UNSAID && o->format > 0 ? ".sheet.pdf" : ".sheet.html";
}

const struct verb_of_many verb_of_many[VERB_COUNT] = {
    [VERB_CHECK] = {check_ending, false},
    [VERB_REPLY] = {reply_ending, true},
    [VERB_SHEET] = {sheet_ending, true},
};
