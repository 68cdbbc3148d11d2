// What the search of the window offers: a part of MainWindow that stands apart for its length.

#include "desktop/main_window.h"

#include "desktop/canvas/map_canvas.h"
#include "desktop/panels/command_search.h"
#include "desktop/panels/entry_notation.h"
#include "desktop/window_actions.h"
#include "geodesy/coordinate_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

QString wordsOf(const QAction& action) {
    QString words = action.text();
    return words.remove('&').remove(QStringLiteral("…"));
}

constexpr std::size_t kMostParcels = 6;

} // namespace

void MainWindow::fillSearch() {
    m_search->addProvider([this](const QString& typed) {
        std::vector<SearchHit> hits;
        if (const auto place = geodesy::tryParsePosition(typed.toStdString()))
            hits.push_back({tr("Go to %1").arg(text(geodesy::format(*place, m_settings.notation()))), tr("place"),
                            [this, at = *place] { m_map->showPlace(at); }});
        try {
            if (const auto date = dateFrom(typed))
                hits.push_back({tr("Show the set on %1").arg(dateWords(*date)), tr("day"), [this, day = *date] {
                                    airspace::Moment moment = m_audit.moment();
                                    moment.date = day;
                                    m_audit.setMoment(moment);
                                }});
        } catch (const Fault&) {
            // Not a day: it is something else.
        }
        return hits;
    });
    m_search->addProvider([this](const QString& typed) { return thingHits(typed); });
    m_search->addProvider([this](const QString& typed) {
        std::vector<SearchHit> hits;
        for (QAction* action : m_actions->all()) {
            const QString words = wordsOf(*action);
            if (action->isEnabled() && words.contains(typed, Qt::CaseInsensitive))
                hits.push_back(
                    {words, action->shortcut().toString(QKeySequence::NativeText), [action] { action->trigger(); }});
        }
        return hits;
    });
    m_search->addProvider([this](const QString& typed) { return parcelHits(typed); });
}

std::vector<SearchHit> MainWindow::thingHits(const QString& typed) {
    std::vector<SearchHit> hits;
    const auto offer = [&](const auto& roster, const QString& sort) {
        for (const auto& one : roster)
            if (text(one.name).contains(typed, Qt::CaseInsensitive))
                hits.push_back({text(one.name), sort, [this, id = one.id] {
                                    m_map->select(id);
                                    m_map->zoomToSelection();
                                }});
    };
    offer(m_document.set().fences, tr("fence"));
    offer(m_document.set().sites, tr("site"));
    offer(m_document.set().homes, tr("home"));
    return hits;
}

std::vector<SearchHit> MainWindow::parcelHits(const QString& typed) {
    std::vector<SearchHit> exact;
    std::vector<SearchHit> close;
    for (const model::Source& source : m_document.set().sources) {
        const auto* loaded = m_sources.find(source.id);
        if (!loaded || !loaded->layer)
            continue;
        const auto layer = loaded->layer;
        const auto column = layer->column(source.numberField);
        if (!column)
            continue;
        for (const std::size_t feature : layer->search(*column, typed.toStdString(), kMostParcels)) {
            const QString number = text(std::string{layer->attribute(feature, *column)});
            auto& list = number.compare(typed, Qt::CaseInsensitive) == 0 ? exact : close;
            list.push_back({tr("Parcel %1").arg(number), text(source.name), [this, layer, feature] {
                                if (const geometry::Box box = layer->box(feature); !box.empty())
                                    m_map->zoomTo(box);
                            }});
        }
    }
    exact.insert(exact.end(), close.begin(), close.end());
    return exact;
}

} // namespace fencewright::desktop
