#include "catalog/cells/zip_archive.h"

#include <vector>

#include <zip.h>

#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"

namespace backplate {
namespace {

constexpr std::size_t block_bytes = std::size_t{1} << 16;

[[noreturn]] void refuse_damaged(const std::string& path, const std::string& what) {
    throw RefusedList("damaged_archive", path + ": the workbook is damaged or incomplete (" + what +
                                             "); expected a whole .xlsx or .ods file");
}

struct CloseMember {
    void operator()(zip_file_t* file) const { zip_fclose(file); }
};

} // namespace

struct ZipArchive::Handle {
    zip_t* archive = nullptr;
    ~Handle() {
        if (archive) zip_discard(archive);
    }
};

ZipArchive::ZipArchive(std::string path, std::string_view bytes)
    : path_(std::move(path)), handle_(std::make_unique<Handle>()) {
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
    if (source) handle_->archive = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error);
    zip_error_fini(&error);
    if (handle_->archive) return;
    if (source) zip_source_free(source);
    refuse_damaged(path_, "its directory cannot be read");
}

ZipArchive::~ZipArchive() = default;

bool ZipArchive::has(const std::string& member) const {
    return zip_name_locate(handle_->archive, member.c_str(), 0) >= 0;
}

void ZipArchive::read(const std::string& member,
                      const std::function<void(std::string_view)>& take) {
    if (!has(member)) refuse_damaged(path_, "its part " + member + " is missing");
    const std::unique_ptr<zip_file_t, CloseMember> file(
        zip_fopen(handle_->archive, member.c_str(), 0));
    if (!file && zip_error_code_zip(zip_get_error(handle_->archive)) == ZIP_ER_NOPASSWD)
        throw RefusedList("password",
                          path_ + ": is protected by a password; expected a workbook without one");
    if (!file) refuse_damaged(path_, "its part " + member + " cannot be opened");
    std::vector<char> block(block_bytes);
    for (;;) {
        const auto count = zip_fread(file.get(), block.data(), block.size());
        if (count < 0) refuse_damaged(path_, "its part " + member + " cannot be unpacked");
        if (count == 0) return;
        unpacked_ += static_cast<std::size_t>(count);
        if (unpacked_ > most_unpacked_bytes)
            throw RefusedList("too_large",
                              path_ + ": unpacks to too much; expected at most 50 MB unpacked");
        take({block.data(), static_cast<std::size_t>(count)});
    }
}

} // namespace backplate
