// database
#include <sqlite3.h>
