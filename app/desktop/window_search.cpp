// What the search of the window offers: a part of MainWindow that stands apart for its length.

#include "desktop/main_window.h"

#include "desktop/canvas/map_canvas.h"
#include "desktop/dialogs/features_dialog.h"
#include "desktop/map_area.h"
#include "desktop/panels/command_search.h"
#include "desktop/panels/entry_notation.h"
#include "desktop/panels/word_match.h"
#include "desktop/window_actions.h"
#include "geodesy/coordinate_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

constexpr std::size_t kMostCommands = 9;
constexpr int kOnlyInItsPlace = 4; // found by the menu it stands in
constexpr int kUsedOfLate = 4;
constexpr std::size_t kMostParcels = 6;
constexpr std::size_t kMostFound = 1000;

} // namespace

void MainWindow::fillSearch() {
    m_search->setIdleProvider([this] { return recentHits(); });
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
    m_search->addProvider([this](const QString& typed) { return columnHits(typed); });
    m_search->addProvider([this](const QString& typed) { return thingHits(typed); });
    m_search->addProvider([this](const QString& typed) { return commandHits(typed); });
    m_search->addProvider([this](const QString& typed) { return parcelHits(typed); });
}

SearchHit MainWindow::commandHit(QAction* action) {
    QString words = plainWords(*action);
    QString place = menuPlace(*action);
    if (action->isCheckable() && action->isChecked())
        words = tr("%1 ✓").arg(words);
    if (!action->isEnabled())
        place = tr("%1, not now").arg(place);
    return {words, place, [action] { action->trigger(); }, action->shortcut().toString(QKeySequence::NativeText)};
}

std::vector<SearchHit> MainWindow::recentHits() {
    std::vector<SearchHit> hits;
    const QStringList recent = m_settings.recentCommands();
    for (const QString& name : recent)
        for (QAction* action : m_actions->all())
            if (action->objectName() == name && action->isEnabled())
                hits.push_back(commandHit(action));
    return hits;
}

std::vector<SearchHit> MainWindow::commandHits(const QString& typed) {
    struct Found {
        int misfit;
        QAction* action;
    };
    std::vector<Found> found;
    const QStringList recent = m_settings.recentCommands();
    for (QAction* action : m_actions->all() + m_map->commands()) {
        const QString words = plainWords(*action);
        auto how = misfit(typed, words);
        if (!how) {
            how = misfit(typed, menuPlace(*action) + " " + words);
            if (!how)
                how = misfit(typed, action->whatsThis()); // what others call it stands there, too
            if (!how)
                continue;
            *how = std::max(*how, 0) + kOnlyInItsPlace;
        }
        if (recent.contains(action->objectName()))
            *how -= kUsedOfLate;
        found.push_back({*how, action});
    }
    std::stable_sort(found.begin(), found.end(), [&](const Found& a, const Found& b) {
        if (a.action->isEnabled() != b.action->isEnabled())
            return a.action->isEnabled();
        return a.misfit < b.misfit;
    });
    std::vector<SearchHit> hits;
    for (const Found& one : found)
        if (hits.size() < kMostCommands)
            hits.push_back(commandHit(one.action));
    return hits;
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

std::vector<SearchHit> MainWindow::columnHits(const QString& typed) {
    const auto search = columnSearch(typed);
    if (!search)
        return {};
    std::vector<SearchHit> hits;
    const std::vector<FoundFeature> found = m_map->featuresWhere(*search, kMostFound);
    for (const FoundFeature& one : found) {
        if (hits.size() == kMostParcels)
            break;
        hits.push_back({one.name, one.layerName, [this, one] {
                            if (const geometry::Box box = one.layer->box(one.feature); !box.empty())
                                m_map->zoomTo(box);
                        }});
    }
    if (!found.empty()) {
        const QString all = found.size() == 1           ? tr("Show what is written about it")
                            : found.size() < kMostFound ? tr("List all %1").arg(found.size())
                                                        : tr("List the first %1").arg(found.size());
        hits.insert(hits.begin() + std::min<std::ptrdiff_t>(1, std::ssize(hits)),
                    {all, typed, [this, typed, found] { showFeatures(tr("Found"), typed, found, found.size() == 1); }});
    }
    return hits;
}

void MainWindow::showWhatIsHere(const model::Position& place) {
    const QString written = text(geodesy::format(place, m_settings.notation()));
    std::vector<FoundFeature> found = m_map->featuresAt(place);
    if (found.empty()) {
        m_area->messages().showNote(tr("No reference layer that is shown has anything at %1.").arg(written));
        return;
    }
    showFeatures(tr("What is here"), written, std::move(found), true);
}

void MainWindow::showFeatures(const QString& title, const QString& heading, std::vector<FoundFeature> features,
                              bool opened) {
    // One at a time: the next question takes the place of the last answer.
    delete findChild<FeaturesDialog*>("featuresDialog");
    auto* dialog = new FeaturesDialog{title, heading, std::move(features),
                                      opened ? FeaturesDialog::Opened::All : FeaturesDialog::Opened::None, this};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &FeaturesDialog::showRequested, this, [this](const geometry::Box& box) { m_map->zoomTo(box); });
    dialog->show();
}

} // namespace fencewright::desktop
