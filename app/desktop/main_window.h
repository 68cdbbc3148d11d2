#pragma once

#include <QWidget>

#include "desktop/arrangement.h"
#include "desktop/canvas/identify.h"
#include "desktop/canvas/selection.h"
#include "desktop/flows/corners_flow.h"
#include "desktop/flows/delivery_flow.h"
#include "desktop/flows/document_flow.h"
#include "desktop/flows/import_flow.h"
#include "desktop/flows/margin_flow.h"
#include "desktop/flows/selection_flow.h"
#include "desktop/flows/shaping_flow.h"
#include "desktop/flows/source_flow.h"
#include "desktop/flows/table_flow.h"
#include "desktop/key_book.h"
#include "desktop/panels/ledger_model.h"
#include "desktop/theme.h"
#include "session/outline_cache.h"

#include <memory>
#include <optional>

class QMenu;
class QSplitter;

namespace fencewright::desktop {

class CalendarStrip;
class CommandSearch;
class ElidedLabel;
class FindingsPanel;
class LedgerPanel;
class LowerPages;
class MapArea;
class MapCanvas;
class RecordPanel;
class StartPage;
class StatusLine;
class WindowActions;
struct SearchHit;

/// What a window is started with.
struct WindowOptions {
    QString settingsFile;   ///< empty: the user's own
    QString recoveryFolder; ///< empty: no copies of unsaved work are kept
    QString readerProgram;  ///< fencewright-cli
    QString sampleDocument;
    std::optional<session::Theme> theme;
    std::optional<model::Date> date;
};

/// The window: it owns the document and everything that works on it, and lays out map, ledger, calendar and lines.
class MainWindow : public QWidget {
    Q_OBJECT

public:
    explicit MainWindow(const WindowOptions& options, QWidget* parent = nullptr);
    ~MainWindow() override;

    void open(const QString& path);
    /// Offers unsaved work that a crash left behind.
    void offerRecovery();

    session::OpenDocument& document() { return m_document; }
    session::LiveAudit& audit() { return m_audit; }
    session::SourceLibrary& sources() { return m_sources; }
    session::Settings& settings() { return m_settings; }
    session::BackgroundJobs& jobs() { return m_jobs; }
    MapCanvas& map() { return *m_map; }

protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void layOut();
    void connectDocument();
    void connectMap();
    void offerForChosen(QMenu& menu);
    void connectPanels();
    void connectActions();
    void fillSearch();
    void restate();
    void applyAppearance();
    void fillRecent();
    void followLedger();
    void showStartPage();
    void shareColumn();
    void shareWidth();
    void arrangeAsGiven();
    void goToNextPart();
    void describeMap();
    void removeChosen();
    void stepFinding();
    void askForDeed();
    SearchHit commandHit(QAction* action);
    std::vector<SearchHit> commandHits(const QString& typed);
    std::vector<SearchHit> recentHits();
    std::vector<SearchHit> thingHits(const QString& typed);
    std::vector<SearchHit> parcelHits(const QString& typed);
    std::vector<SearchHit> columnHits(const QString& typed);
    void showWhatIsHere(const model::Position& place);
    void showFeatures(const QString& title, const QString& heading, std::vector<FoundFeature> features, bool opened);

    // In the order in which they are needed; destroyed in the reverse.
    session::Settings m_settings;
    session::OpenDocument m_document;
    session::BackgroundJobs m_jobs;
    session::LiveAudit m_audit;
    session::SourceLibrary m_sources;
    session::OutlineCache m_outlines{&m_jobs};
    Appearance m_appearance;
    LedgerModel m_model;

    WindowActions* m_actions;
    KeyBook m_keys;
    Arrangement m_arrangement;
    MapArea* m_area;
    MapCanvas* m_map;
    LedgerPanel* m_ledger;
    RecordPanel* m_record;
    FindingsPanel* m_findings;
    LowerPages* m_lower;
    CalendarStrip* m_calendar;
    StatusLine* m_status;
    CommandSearch* m_search;
    StartPage* m_start;
    ElidedLabel* m_name;
    ElidedLabel* m_state;
    QWidget* m_column;
    QSplitter* m_split;
    QSplitter* m_across;

    DocumentFlow m_documentFlow;
    SourceFlow m_sourceFlow;
    TableFlow m_tableFlow;
    ImportFlow m_importFlow;
    DeliveryFlow m_deliveryFlow;
    ClipboardText m_clipboard;
    SelectionFlow m_selectionFlow;
    CornersFlow m_cornersFlow;
    ShapingFlow m_shapingFlow;
    MarginFlow m_marginFlow;
    QString m_sample;
    QString m_hint;
    bool m_closing = false;
    bool m_following = false;
    bool m_formShown = false;
};

} // namespace fencewright::desktop
