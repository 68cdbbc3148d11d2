#pragma once

#include <QAbstractTableModel>

#include "audit/audit.h"
#include "desktop/canvas/selection.h"
#include "session/live_audit.h"
#include "session/open_document.h"
#include "session/outline_cache.h"
#include "session/settings.h"
#include "session/source_library.h"

#include <memory>
#include <optional>
#include <string>
#include <tuple>
#include <unordered_map>
#include <variant>
#include <vector>

namespace fencewright::desktop {

/// Which list the ledger shows.
enum class LedgerPage { Fences, Sites, Homes, Sources };

/// What a row stands for.
using LedgerKey = std::variant<std::monostate, model::FenceId, model::SiteId, model::HomeId, model::SourceId>;

/// What is chosen in the ledger: any number of things, or one source.
using Chosen = std::variant<Selection, model::SourceId>;
[[nodiscard]] inline bool isNothing(const Chosen& chosen) { return chosen == Chosen{}; }

enum class RowSymbol { KeepIn, KeepOut, Site, Home, Alternate, Imagery, Reference };

/// The rows of one page: symbol, name, two short values, and the worst finding.
class LedgerModel : public QAbstractTableModel {
    Q_OBJECT

public:
    struct Row {
        LedgerKey key;
        RowSymbol symbol = RowSymbol::Site;
        QString name;
        QString second;
        QString third;
        QString more;        ///< the tooltip
        bool inForce = true; ///< enabled and in its period; sources: visible
        std::optional<audit::Severity> worst;
        bool locked = false;
    };

    LedgerModel(session::OpenDocument& document, session::OutlineCache& outlines, session::LiveAudit& audit,
                session::SourceLibrary& sources, session::Settings& settings, QObject* parent = nullptr);

    void setPage(LedgerPage page);
    LedgerPage page() const { return m_page; }
    const Row& rowAt(int row) const { return m_rows[std::size_t(row)]; }
    /// -1 where there is none.
    int rowOf(const LedgerKey& key) const;
    /// "5 in force on 14 May 2026", "3 sites".
    QString countWords() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

signals:
    void rebuilt();

private:
    /// What a row of a fence was made of: the same again makes the same row.
    struct Made {
        std::shared_ptr<const session::OutlinedFence> outlined;
        bool inForce = true;
        std::optional<audit::Severity> worst;
        units::System system = units::System::Metric;

        bool operator==(const Made&) const = default;
    };

    void rebuild();
    void updateWorst();
    /// Of a ledger of very many fences one row changes, most often: only what is another is made anew.
    void rebuildFences();
    Row fenceRow(const Made& made) const;

    session::OpenDocument& m_document;
    session::OutlineCache& m_outlines;
    session::LiveAudit& m_audit;
    session::SourceLibrary& m_sources;
    session::Settings& m_settings;
    LedgerPage m_page = LedgerPage::Fences;
    std::vector<Row> m_rows;
    std::vector<Made> m_made; ///< of m_rows, on the page of fences
    std::tuple<std::shared_ptr<const audit::AuditResult>, model::Date, units::System> m_madeWith;
    std::shared_ptr<const audit::AuditResult> m_worstOf;
    std::unordered_map<std::string, audit::Severity> m_worst; ///< of each fence that has findings
};

} // namespace fencewright::desktop
