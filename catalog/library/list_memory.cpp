#include "catalog/library/list_memory.h"

#include "catalog/library/library_file.h"

namespace backplate {

std::optional<std::string> remembered_answers(const std::string& library,
                                              const std::string& client) {
    const auto database = open_library_file(library);
    return on_database(library, "read", [&]() -> std::optional<std::string> {
        if (schema_version(*database) < first_version_with_answers) return std::nullopt;
        SQLite::Statement select(*database, "SELECT answers FROM list_answers WHERE client = ?");
        select.bind(1, client);
        if (!select.executeStep()) return std::nullopt;
        return select.getColumn(0).getString();
    });
}

void remember_answers(const std::string& library, const std::string& client,
                      const std::string& answers, const std::string& person) {
    const auto database = open_library_file(library);
    on_database(library, "changed", [&] {
        SQLite::Transaction transaction(*database, SQLite::TransactionBehavior::IMMEDIATE);
        bring_up_to_date(*database);
        SQLite::Statement insert(
            *database, "INSERT INTO list_answers (client, answers, saved_at, person) VALUES (?, ?, "
                       "strftime('%Y-%m-%dT%H:%M:%SZ', 'now'), ?) ON CONFLICT (client) DO UPDATE "
                       "SET answers = excluded.answers, saved_at = excluded.saved_at, "
                       "person = excluded.person");
        insert.bind(1, client);
        insert.bind(2, answers);
        insert.bind(3, person);
        insert.exec();
        transaction.commit();
    });
}

} // namespace backplate
