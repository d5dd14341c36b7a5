#include "pricing/job/offer_texts.h"

#include <algorithm>

namespace backplate {
namespace {

std::string sentence(const OfferView& view, const OfferTextRow& row) {
    std::string text;
    for (const TextPiece& piece : text_pieces(row.text))
        text += piece.is_name ? offer_value(view, piece.text) : piece.text;
    return text;
}

/// The row for every box where it holds; one entry where all boxes say the same.
void add_row(const OfferTextRow& row, const std::vector<OfferView>& views,
             std::vector<OfferText>& texts) {
    std::vector<OfferText> found;
    for (const OfferView& view : views)
        if (all_hold(row.terms, [&](const std::string& key) { return offer_fact(view, key); }))
            found.push_back({row.section, row.subject, sentence(view, row), row.id, view.box.name,
                             row.instead_of});
    const bool same = found.size() == views.size() &&
                      std::all_of(found.begin(), found.end(), [&](const OfferText& each) {
                          return each.text == found.front().text;
                      });
    if (same && !found.empty()) {
        found.resize(1);
        found.front().box.clear();
    }
    texts.insert(texts.end(), found.begin(), found.end());
}

} // namespace

std::vector<OfferText> offer_texts(const Estimate& estimate, const PriceBook& book,
                                   const RuleBook& rules) {
    std::vector<OfferView> views;
    for (std::size_t i = 0; i < estimate.boxes.size(); ++i)
        views.push_back({estimate, estimate.request.boxes[i], estimate.boxes[i], book, rules});
    std::vector<OfferText> texts;
    for (const OfferTextRow& row : rules.offer_texts) add_row(row, views, texts);
    return texts;
}

} // namespace backplate
