#include "catalog/cells/xlsx_parts.h"

#include <stdexcept>

#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"
#include "catalog/cells/xlsx_styles.h"
#include "catalog/cells/xml_stream.h"

namespace backplate {
namespace {

std::string folder_of(const std::string& member) {
    const auto slash = member.rfind('/');
    return slash == std::string::npos ? "" : member.substr(0, slash + 1);
}

/// A target as the name of a member: absolute, or from the folder of the part that names it.
std::string member_of(const std::string& part, std::string_view target) {
    if (target.starts_with('/')) return std::string(target.substr(1));
    std::string folder = folder_of(part);
    while (target.starts_with("../") && !folder.empty()) {
        target.remove_prefix(3);
        folder = folder_of(folder.substr(0, folder.size() - 1));
    }
    return folder + std::string(target);
}

class RelationsHandler : public XmlHandler {
public:
    explicit RelationsHandler(std::string part) : part_(std::move(part)) {}
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name != "Relationship" || attributes.get("TargetMode") == "External") return;
        const auto type = attributes.get("Type");
        relations[std::string(attributes.get("Id"))] = {
            std::string(type.substr(type.rfind('/') + 1)),
            member_of(part_, attributes.get("Target"))};
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    XlsxRelations relations;

private:
    std::string part_;
};

class WorkbookHandler : public XmlHandler {
public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "workbookPr") from_1904 = attributes.flag("date1904");
        if (name != "sheet") return;
        if (sheets.size() == most_list_sheets) throw std::out_of_range("number of sheets");
        const auto state = attributes.get("state");
        sheets.push_back({std::string(attributes.get("name")),
                          std::string(attributes.get("id", "relationships")),
                          state == "hidden" || state == "veryHidden"});
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    std::vector<XlsxSheetPart> sheets; ///< member: still the id of the relation
    bool from_1904 = false;
};

class SharedTextsHandler : public XmlHandler {
public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "si") texts.emplace_back();
        if (name == "rPh") in_reading_help_ = true;
        in_text_ = name == "t" && !in_reading_help_ && !texts.empty();
        if (name == "strike" && !texts.empty())
            texts.back().struck |= !attributes.find("val") || attributes.flag("val");
    }
    void end(std::string_view name) override {
        if (name == "rPh") in_reading_help_ = false;
        if (name == "si" && !texts.empty()) texts.back().text = unescaped(texts.back().text);
        in_text_ = false;
    }
    void text(std::string_view part) override {
        if (in_text_) texts.back().text += part;
    }

    std::vector<XlsxText> texts;

private:
    bool in_text_ = false, in_reading_help_ = false;
};

std::string first_of_type(const XlsxRelations& relations, std::string_view type) {
    for (const auto& [id, relation] : relations)
        if (relation.type == type) return relation.member;
    return {};
}

} // namespace

XlsxRelations read_xlsx_relations(ZipArchive& archive, const std::string& member,
                                  const std::stop_token& stop) {
    const std::string folder = folder_of(member);
    const std::string list = folder + "_rels/" + member.substr(folder.size()) + ".rels";
    RelationsHandler handler(member);
    if (archive.has(list)) read_xml(archive, list, handler, stop);
    return std::move(handler.relations);
}

XlsxParts read_xlsx_parts(ZipArchive& archive, const std::stop_token& stop) {
    const std::string book =
        first_of_type(read_xlsx_relations(archive, "", stop), "officeDocument");
    if (book.empty())
        throw RefusedList("damaged_archive",
                          archive.path() + ": names no workbook part; expected a whole .xlsx file");
    WorkbookHandler workbook;
    read_xml(archive, book, workbook, stop);
    const auto relations = read_xlsx_relations(archive, book, stop);
    XlsxParts parts;
    parts.from_1904 = workbook.from_1904;
    for (XlsxSheetPart& sheet : workbook.sheets) {
        const auto found = relations.find(sheet.member);
        if (found == relations.end())
            throw RefusedList("damaged_archive", archive.path() + ": sheet " + sheet.name +
                                                     " has no part; expected a whole .xlsx file");
        if (found->second.type != "worksheet") continue; // a chart on a sheet of its own
        sheet.member = found->second.member;
        parts.sheets.push_back(std::move(sheet));
    }
    SharedTextsHandler shared;
    const std::string texts = first_of_type(relations, "sharedStrings");
    if (!texts.empty()) read_xml(archive, texts, shared, stop);
    parts.shared_texts = std::move(shared.texts);
    const std::string styles = first_of_type(relations, "styles");
    if (!styles.empty()) parts.formats = read_xlsx_formats(archive, styles, stop);
    return parts;
}

} // namespace backplate
