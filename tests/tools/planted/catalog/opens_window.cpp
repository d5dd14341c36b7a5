// window
#include <wx/string.h>
