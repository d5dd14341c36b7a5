#pragma once

#include <map>
#include <stop_token>
#include <string>
#include <vector>

#include "catalog/cells/sheet_builder.h"
#include "catalog/cells/zip_archive.h"

namespace backplate {

/// What the format of a cell says.
struct XlsxFormat {
    CellLook look;
    bool date = false;
};

struct XlsxText {
    std::string text;
    bool struck = false;
};

struct XlsxSheetPart {
    std::string name, member;
    bool hidden = false;
};

/// The parts of a workbook that its sheets need.
struct XlsxParts {
    std::vector<XlsxSheetPart> sheets;
    std::vector<XlsxText> shared_texts;
    std::vector<XlsxFormat> formats;
    bool from_1904 = false;
};

/// Targets of a part's relations by id: type (its last word) and member name.
struct XlsxRelation {
    std::string type, member;
};
using XlsxRelations = std::map<std::string, XlsxRelation>;

/// Relations of `member`; none where it has no list of them.
XlsxRelations read_xlsx_relations(ZipArchive& archive, const std::string& member,
                                  const std::stop_token& stop);

XlsxParts read_xlsx_parts(ZipArchive& archive, const std::stop_token& stop);

} // namespace backplate
