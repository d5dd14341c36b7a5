// mutable
int planted_count = 0;

int planted() { return ++planted_count; }
