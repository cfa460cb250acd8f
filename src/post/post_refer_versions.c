#include "post/post_refer.h"
void refer_versions(struct story *st) { (void)st; }
