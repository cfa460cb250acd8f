#include "post/post_refer.h"
void refer_versions(struct story *st) { (void)st; }
void refer_same(struct story *st) { (void)st; }
