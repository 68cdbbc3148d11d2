#include "desktop/panels/ledger_model.h"

#include "airspace/activity.h"
#include "desktop/panels/entry_notation.h"

#include <algorithm>
#include <utility>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

} // namespace

LedgerModel::LedgerModel(session::OpenDocument& document, session::OutlineCache& outlines, session::LiveAudit& audit,
                         session::SourceLibrary& sources, session::Settings& settings, QObject* parent)
    : QAbstractTableModel{parent}, m_document{document}, m_outlines{outlines}, m_audit{audit}, m_sources{sources},
      m_settings{settings} {
    connect(&document, &session::OpenDocument::changed, this, &LedgerModel::rebuild);
    connect(&outlines, &session::OutlineCache::settled, this, &LedgerModel::rebuild);
    connect(&audit, &session::LiveAudit::audited, this, &LedgerModel::rebuild);
    connect(&audit, &session::LiveAudit::momentChanged, this, &LedgerModel::rebuild);
    connect(&sources, &session::SourceLibrary::sourceChanged, this, &LedgerModel::rebuild);
    connect(&sources, &session::SourceLibrary::listChanged, this, &LedgerModel::rebuild);
    connect(&settings, &session::Settings::changed, this, &LedgerModel::rebuild);
    rebuild();
}

void LedgerModel::setPage(LedgerPage page) {
    m_page = page;
    rebuild();
}

int LedgerModel::rowOf(const LedgerKey& key) const {
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (m_rows[i].key == key)
            return int(i);
    return -1;
}

QString LedgerModel::countWords() const {
    const auto& set = m_document.set();
    switch (m_page) {
    case LedgerPage::Fences: {
        const auto inForce = std::count_if(m_rows.begin(), m_rows.end(), [](const Row& row) { return row.inForce; });
        return tr("%1 in force on %2").arg(inForce).arg(dateWords(m_audit.moment().date));
    }
    case LedgerPage::Sites: {
        std::size_t confidential = 0;
        for (const model::Site& site : set.sites)
            confidential += site.confidential ? 1 : 0;
        return confidential ? tr("%1 sites, %2 confidential").arg(set.sites.size()).arg(confidential)
                            : tr("%1 sites").arg(set.sites.size());
    }
    case LedgerPage::Homes:
        return set.homes.size() == 1 ? tr("1 place to land") : tr("%1 places to land").arg(set.homes.size());
    case LedgerPage::Sources:
        break;
    }
    return tr("the topmost first");
}

void LedgerModel::updateWorst() {
    const auto result = m_audit.result();
    if (result == m_worstOf)
        return;
    m_worstOf = result;
    m_worst.clear();
    for (const audit::Finding& finding : result->findings)
        if (finding.fence) {
            const auto [at, added] = m_worst.try_emplace(finding.fence->value, finding.severity);
            if (!added)
                at->second = std::max(at->second, finding.severity);
        }
}

LedgerModel::Row LedgerModel::fenceRow(const Made& made) const {
    const model::Fence& fence = *made.outlined->fence;
    Row row;
    row.key = fence.id;
    row.symbol = fence.kind == model::FenceKind::KeepIn ? RowSymbol::KeepIn : RowSymbol::KeepOut;
    row.name = text(fence.name);
    row.second = bandText(fence.band);
    row.third = made.outlined->pending           ? tr("computing…")
                : made.outlined->surface.empty() ? tr("none")
                                                 : text(units::formatArea(made.outlined->area, made.system));
    row.inForce = made.inForce;
    row.worst = made.worst;
    row.locked = fence.locked;
    const QString season = seasonText(fence.period.season);
    row.more = tr("%1\nBasis: %2\nSeason: %3")
                   .arg(row.name, fence.basis.citation.empty() ? tr("none given") : text(fence.basis.citation),
                        season.isEmpty() ? tr("the whole year") : season);
    if (!fence.enabled)
        row.more += "\n" + tr("Switched off");
    if (fence.locked)
        row.more += "\n" + tr("Locked");
    return row;
}

void LedgerModel::rebuildFences() {
    updateWorst();
    const auto system = m_settings.unitSystem();
    const auto date = m_audit.moment().date;
    const auto& all = m_outlines.outlined(m_document.set());
    // Where neither the findings nor the day nor the units are others, only another outline makes another row.
    const auto key = std::tuple{m_worstOf, date, system};
    const bool sameRest = std::exchange(m_madeWith, key) == key && m_made.size() == all.size();
    std::vector<Made> made;
    if (sameRest)
        made = m_made;
    made.resize(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (sameRest && made[i].outlined == all[i])
            continue;
        const model::Fence& fence = *all[i]->fence;
        const auto worst = m_worst.find(fence.id.value);
        made[i] = {all[i], fence.enabled && airspace::inPeriod(fence.period, date),
                   worst == m_worst.end() ? std::nullopt : std::optional{worst->second}, system};
    }
    if (made.size() != m_rows.size() || m_made.size() != made.size()) {
        beginResetModel();
        m_rows.clear();
        for (const Made& one : made)
            m_rows.push_back(fenceRow(one));
        m_made = std::move(made);
        endResetModel();
    } else {
        int first = -1, last = -1;
        for (std::size_t i = 0; i < made.size(); ++i)
            if (made[i] != m_made[i]) {
                m_rows[i] = fenceRow(made[i]);
                first = first < 0 ? int(i) : first;
                last = int(i);
            }
        m_made = std::move(made);
        if (first >= 0)
            emit dataChanged(index(first, 0), index(last, columnCount() - 1));
    }
    emit rebuilt();
}

void LedgerModel::rebuild() {
    if (m_page == LedgerPage::Fences)
        return rebuildFences();
    beginResetModel();
    m_rows.clear();
    m_made.clear();
    const auto& set = m_document.set();
    const auto system = m_settings.unitSystem();
    switch (m_page) {
    case LedgerPage::Fences:
        break;
    case LedgerPage::Sites:
        for (const model::Site& site : set.sites)
            m_rows.push_back(
                {site.id,
                 RowSymbol::Site,
                 text(site.name),
                 text(site.category),
                 site.positionError.length > Length{} ? "± " + lengthText(site.positionError, system) : QString{},
                 (site.confidential ? tr("%1\nConfidential").arg(text(site.name)) : text(site.name)) +
                     (site.locked ? "\n" + tr("Locked") : QString{}),
                 true,
                 {},
                 site.locked});
        break;
    case LedgerPage::Homes:
        for (const model::Home& home : set.homes) {
            const bool alternate = home.kind == model::HomeKind::Alternate;
            m_rows.push_back({home.id,
                              alternate ? RowSymbol::Alternate : RowSymbol::Home,
                              text(home.name),
                              alternate ? tr("alternate") : tr("home"),
                              lengthText(home.landingRadius, system),
                              text(home.name) + (home.locked ? "\n" + tr("Locked") : QString{}),
                              true,
                              {},
                              home.locked});
        }
        break;
    case LedgerPage::Sources:
        for (std::size_t i = set.sources.size(); i-- > 0;) {
            const model::Source& source = set.sources[i];
            Row row;
            row.key = source.id;
            row.symbol = source.kind == model::SourceKind::Imagery ? RowSymbol::Imagery : RowSymbol::Reference;
            row.name = text(source.name);
            row.second = dateText(source.captured);
            row.inForce = source.visible;
            row.third = source.visible ? tr("shown") : tr("hidden");
            row.more = text(source.path);
            if (const auto* loaded = m_sources.find(source.id)) {
                if (loaded->state == session::LoadedSource::State::Loading)
                    row.third = tr("reading…");
                if (loaded->state == session::LoadedSource::State::Failed) {
                    row.third = tr("missing");
                    row.worst = audit::Severity::Doubt;
                    row.more = loaded->words;
                }
                if (!loaded->trouble.isEmpty()) {
                    row.third = raster::isServerAddress(source.path) ? tr("refused") : tr("damaged");
                    row.worst = audit::Severity::Doubt;
                    row.more = loaded->trouble;
                }
            }
            m_rows.push_back(std::move(row));
        }
        break;
    }
    endResetModel();
    emit rebuilt();
}

int LedgerModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : int(m_rows.size()); }

int LedgerModel::columnCount(const QModelIndex&) const { return 4; }

QVariant LedgerModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid())
        return {};
    const Row& row = rowAt(index.row());
    if (role == Qt::DisplayRole)
        return index.column() == 0   ? row.name
               : index.column() == 1 ? row.second
               : index.column() == 2 ? row.third
                                     : QString{};
    if (role == Qt::ToolTipRole)
        return row.more;
    if (role == Qt::AccessibleTextRole && index.column() == 0) {
        QStringList parts{row.name};
        if (row.symbol == RowSymbol::KeepIn)
            parts << tr("keep-in");
        if (row.symbol == RowSymbol::KeepOut)
            parts << tr("keep-out");
        if (!row.inForce)
            parts << tr("not in force");
        if (row.locked)
            parts << tr("locked");
        if (row.worst)
            parts << (*row.worst == audit::Severity::Error ? tr("has an error") : tr("has a finding"));
        return parts.join(", ");
    }
    return {};
}

QVariant LedgerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal)
        return {};
    if (role == Qt::TextAlignmentRole)
        return int(section == 2 ? Qt::AlignRight | Qt::AlignVCenter : Qt::AlignLeft | Qt::AlignVCenter);
    if (role != Qt::DisplayRole)
        return {};
    if (section == 0)
        return tr("Name");
    if (section == 3)
        return {};
    switch (m_page) {
    case LedgerPage::Fences:
        return section == 1 ? tr("Band") : tr("Area");
    case LedgerPage::Sites:
        return section == 1 ? tr("Kind of site") : tr("Error");
    case LedgerPage::Homes:
        return section == 1 ? tr("Kind") : tr("Radius");
    case LedgerPage::Sources:
        break;
    }
    return section == 1 ? tr("Captured") : tr("State");
}

} // namespace fencewright::desktop
