#pragma once

#include <map>
#include <string>

#include <locale.h>

#include "pricing/values/date.h"
#include "reports/workbook/style.h"

struct lxw_workbook;
struct lxw_worksheet;
struct lxw_format;

namespace backplate {

/// This thread speaks "C" as long as the guard lives; other threads keep their language.
class PlainLocale {
public:
    PlainLocale(); ///< throws OutsideFault
    ~PlainLocale();
    PlainLocale(const PlainLocale&) = delete;
    PlainLocale& operator=(const PlainLocale&) = delete;

private:
    locale_t plain_ = nullptr, before_ = nullptr;
};

/// A spreadsheet file in the making. It is written beside its target and takes the target's name
/// only when it is complete; without `save` nothing is left. Every failure is an OutsideFault.
class WorkbookFile {
public:
    explicit WorkbookFile(const std::string& path);
    ~WorkbookFile();
    WorkbookFile(const WorkbookFile&) = delete;
    WorkbookFile& operator=(const WorkbookFile&) = delete;

    void describe(const std::string& title, const std::string& author, Date created);
    lxw_worksheet* add_sheet(const char* name);
    lxw_format* format(const Style& style);
    /// A name for one cell ("'Hours'!$H$20"), used in formulas.
    void name_cell(const char* name, const std::string& place);
    void save();

private:
    lxw_format* make_format(const Style& style);

    PlainLocale locale_;
    std::string path_, beside_;
    lxw_workbook* book_ = nullptr;
    std::map<Style, lxw_format*> formats_;
};

/// Throws OutsideFault where `error` (an lxw_error) is one.
void expect_written(int error);

} // namespace backplate
