// thread
#include <thread>

void planted() {
    std::thread([] {}).join();
}
