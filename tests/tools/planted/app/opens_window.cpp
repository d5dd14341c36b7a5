// window
#include <wx/frame.h>

int main() { return wxFrame().IsShown() ? 1 : 0; }
