#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <zip.h>

namespace backplate::tests {

/// Names and contents of the members of a zip archive.
using Parts = std::vector<std::pair<std::string, std::string>>;

/// The archive in memory.
inline std::string zipped(const Parts& parts) {
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t* target = zip_source_buffer_create(nullptr, 0, 0, &error);
    zip_source_keep(target);
    zip_t* archive = zip_open_from_source(target, ZIP_TRUNCATE, &error);
    for (const auto& [name, text] : parts)
        zip_file_add(archive, name.c_str(), zip_source_buffer(archive, text.data(), text.size(), 0),
                     ZIP_FL_OVERWRITE);
    if (zip_close(archive) != 0 || zip_source_open(target) != 0)
        throw std::runtime_error("the archive of a test cannot be made");
    zip_source_seek(target, 0, SEEK_END);
    std::string bytes(static_cast<std::size_t>(zip_source_tell(target)), '\0');
    zip_source_seek(target, 0, SEEK_SET);
    zip_source_read(target, bytes.data(), bytes.size());
    zip_source_close(target);
    zip_source_free(target);
    return bytes;
}

inline const std::string office_relation =
    "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/// An XLSX workbook of one sheet: its part, and those of shared texts and styles where not empty.
inline Parts workbook_parts(const std::string& sheet, const std::string& texts,
                            const std::string& styles) {
    const auto relation = [](const char* id, const char* type, const char* target) {
        return std::string("<Relationship Id='") + id + "' Type='" + office_relation + "/" + type +
               "' Target='" + target + "'/>";
    };
    std::string relations = relation("r1", "worksheet", "worksheets/sheet1.xml");
    if (!texts.empty()) relations += relation("r2", "sharedStrings", "sharedStrings.xml");
    if (!styles.empty()) relations += relation("r3", "styles", "styles.xml");
    Parts parts{{"_rels/.rels", "<Relationships>" +
                                    relation("r1", "officeDocument", "xl/workbook.xml") +
                                    "</Relationships>"},
                {"xl/workbook.xml", "<workbook xmlns:r='" + office_relation +
                                        "'><sheets><sheet name='A' sheetId='1' r:id='r1'/>"
                                        "</sheets></workbook>"},
                {"xl/_rels/workbook.xml.rels", "<Relationships>" + relations + "</Relationships>"}};
    if (!texts.empty()) parts.emplace_back("xl/sharedStrings.xml", texts);
    if (!styles.empty()) parts.emplace_back("xl/styles.xml", styles);
    parts.emplace_back("xl/worksheets/sheet1.xml", sheet);
    return parts;
}

inline Parts ods_parts(const std::string& content) {
    return {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
            {"content.xml", content}};
}

} // namespace backplate::tests
