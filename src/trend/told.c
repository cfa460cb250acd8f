#include "trend/told.h"

#include "base/table.h"

WORD_TABLE(trend_remark_key, REMARK_KINDS, "loss-too-fast", "loss-unexplained", "gain-fast", "change", "step", "reading",
           "other-weight", "old", "unknown-days", "unread-days", "partly-known-days", "much-eaten");
WORD_TABLE(trend_urgency_word, TREND_URGENCIES, "act", "watch", "know");
WORD_TABLE(trend_lack_word, TREND_LACKS, "nothing", "weighings", "span", "intake");
