#include "desktop/panels/findings_panel.h"

#include "desktop/panels/symbols.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kTextLeft = 26;

QString severityWords(audit::Severity severity) {
    switch (severity) {
    case audit::Severity::Error:
        return FindingsPanel::tr("Error");
    case audit::Severity::Doubt:
        return FindingsPanel::tr("Doubt");
    case audit::Severity::Note:
        break;
    }
    return FindingsPanel::tr("Note");
}

bool sameFinding(const audit::Finding& a, const audit::Finding& b) {
    return a.rule == b.rule && a.fence == b.fence && a.home == b.home && a.place == b.place && a.words == b.words;
}

} // namespace

class FindingsPanel::Model : public QAbstractListModel {
public:
    using QAbstractListModel::QAbstractListModel;

    void take(std::shared_ptr<const audit::AuditResult> result) {
        // Repairs are of the new set in any case; the rows stay where their words do.
        const auto alike = [](const audit::Finding& a, const audit::Finding& b) {
            return sameFinding(a, b) && a.remedy == b.remedy;
        };
        if (m_result && result && m_result != result &&
            std::equal(m_result->findings.begin(), m_result->findings.end(), result->findings.begin(),
                       result->findings.end(), alike)) {
            m_result = std::move(result);
            return;
        }
        beginResetModel();
        m_result = std::move(result);
        endResetModel();
    }
    const audit::Finding& at(int row) const { return m_result->findings[std::size_t(row)]; }
    int rowOf(const audit::Finding& finding) const {
        for (int row = 0; row < rowCount({}); ++row)
            if (sameFinding(at(row), finding))
                return row;
        return -1;
    }

    int rowCount(const QModelIndex& parent) const override {
        return parent.isValid() || !m_result ? 0 : int(m_result->findings.size());
    }
    QVariant data(const QModelIndex& index, int role) const override {
        if (!index.isValid())
            return {};
        const audit::Finding& finding = at(index.row());
        if (role == Qt::DisplayRole)
            return session::translated(finding.words);
        if (role == Qt::AccessibleTextRole || role == Qt::ToolTipRole)
            return severityWords(finding.severity) + ": " + session::translated(finding.words) + '\n' +
                   session::translated(finding.remedy);
        return {};
    }

private:
    std::shared_ptr<const audit::AuditResult> m_result;
};

namespace {

/// A mark, the words, and below them the remedy.
class FindingDelegate : public QStyledItemDelegate {
public:
    using At = std::function<const audit::Finding&(int)>;
    FindingDelegate(At at, Appearance& appearance, QListView* list)
        : QStyledItemDelegate{list}, m_at{std::move(at)}, m_appearance{appearance}, m_list{list} {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const audit::Finding& finding = m_at(index.row());
        const Palette& palette = m_appearance.palette();
        painter->save();
        if (option.state & QStyle::State_Selected)
            painter->fillRect(option.rect, palette.selection);
        if (option.state & QStyle::State_HasFocus)
            painter->fillRect(QRect{option.rect.left(), option.rect.top(), 3, option.rect.height()}, palette.accent);
        const QRect box = option.rect.adjusted(4, 5, -4, -5);
        paintSeverity(*painter, QRectF(box.left() + 1, box.top() + 1, 14, 14), finding.severity, palette);
        const auto [words, remedy] = layout(option.font, box, finding);
        painter->setPen(palette.text);
        painter->setFont(wordsFont(option.font));
        painter->drawText(words, Qt::TextWordWrap, session::translated(finding.words));
        painter->setPen(option.state & QStyle::State_Selected ? palette.text : palette.quietText);
        painter->setFont(remedyFont(option.font));
        painter->drawText(remedy, Qt::TextWordWrap, session::translated(finding.remedy));
        painter->restore();
    }

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const QRect box{0, 0, m_list->viewport()->width() - 8, 10000};
        const auto [words, remedy] = layout(option.font, box, m_at(index.row()));
        return {box.width(), remedy.bottom() + 12};
    }

private:
    static QFont wordsFont(QFont font) {
        font.setPixelSize(kPlainType);
        font.setWeight(QFont::DemiBold);
        return font;
    }
    static QFont remedyFont(QFont font) {
        font.setPixelSize(kSmallType);
        return font;
    }
    static std::pair<QRect, QRect> layout(const QFont& font, const QRect& box, const audit::Finding& finding) {
        const QRect room{box.left() + kTextLeft, box.top(), box.width() - kTextLeft, 10000};
        const QRect words =
            QFontMetrics{wordsFont(font)}.boundingRect(room, Qt::TextWordWrap, session::translated(finding.words));
        const QRect rest{room.left(), words.bottom() + 3, room.width(), 10000};
        const QRect remedy =
            QFontMetrics{remedyFont(font)}.boundingRect(rest, Qt::TextWordWrap, session::translated(finding.remedy));
        return {QRect{room.left(), words.top(), room.width(), words.height()},
                QRect{room.left(), remedy.top(), room.width(), remedy.height()}};
    }

    At m_at;
    Appearance& m_appearance;
    QListView* m_list;
};

} // namespace

FindingsPanel::FindingsPanel(session::OpenDocument& document, session::LiveAudit& audit, Appearance& appearance,
                             QWidget* parent)
    : QWidget{parent}, m_document{document}, m_audit{audit}, m_model{new Model{this}}, m_list{new QListView{this}},
      m_count{new QLabel{this}}, m_none{new QLabel{this}}, m_offer{new QWidget{this}}, m_repair{new QLabel},
      m_take{new QPushButton} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 4, 0, 8);
    column->setSpacing(4);
    m_count->setObjectName("findingsCount");
    m_count->setProperty("quiet", true);
    m_none->setObjectName("findingsNone");
    m_none->setProperty("quiet", true);
    m_none->setWordWrap(true);
    m_none->setContentsMargins(16, 0, 16, 0);
    column->addWidget(m_none);

    m_list->setObjectName("findingsList");
    m_list->setAccessibleName(tr("Findings"));
    m_list->setModel(m_model);
    m_list->setItemDelegate(
        new FindingDelegate{[this](int row) -> const audit::Finding& { return m_model->at(row); }, appearance, m_list});
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setResizeMode(QListView::Adjust);
    m_list->setUniformItemSizes(false);
    auto* list = new QHBoxLayout;
    list->setContentsMargins(12, 0, 12, 0);
    list->addWidget(m_list);
    column->addLayout(list, 1);

    m_offer->setObjectName("repairOffer");
    auto* offer = new QHBoxLayout{m_offer};
    offer->setContentsMargins(16, 4, 16, 0);
    offer->setSpacing(8);
    m_repair->setObjectName("repairWords");
    m_repair->setWordWrap(true);
    m_repair->setProperty("small", true);
    m_take->setObjectName("repairTake");
    m_take->setText(tr("Take repair"));
    m_take->setProperty("primary", true);
    m_take->setAutoDefault(false);
    auto* leave = new QPushButton{tr("Leave")};
    leave->setObjectName("repairLeave");
    leave->setAutoDefault(false);
    offer->addWidget(m_repair, 1);
    offer->addWidget(leave);
    offer->addWidget(m_take);
    column->addWidget(m_offer);
    m_offer->hide();

    connect(&audit, &session::LiveAudit::audited, this, &FindingsPanel::refresh);
    connect(&audit, &session::LiveAudit::momentChanged, this, &FindingsPanel::restate);
    connect(&document, &session::OpenDocument::changed, this, [this] {
        // A repair belongs to the set it was made for.
        clearChoice();
        restate();
    });
    connect(m_list, &QListView::clicked, this, [this](const QModelIndex& index) { choose(index.row()); });
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& index) {
        if (index.isValid() && m_list->hasFocus())
            choose(index.row());
    });
    m_list->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_list, &QListView::customContextMenuRequested, this, &FindingsPanel::openMenu);
    connect(m_list, &QListView::activated, this, [this](const QModelIndex& index) {
        choose(index.row());
        emit editRequested();
    });
    connect(m_take, &QPushButton::clicked, this, &FindingsPanel::take);
    connect(leave, &QPushButton::clicked, this, &FindingsPanel::clearChoice);
    connect(&appearance, &Appearance::changed, m_list->viewport(), qOverload<>(&QWidget::update));
    refresh();
}

void FindingsPanel::refresh() {
    const auto chosen = m_chosen;
    // Very many are laid out piece by piece.
    constexpr std::size_t many = 300;
    const auto result = m_audit.result();
    m_list->setLayoutMode(result && result->findings.size() > many ? QListView::Batched : QListView::SinglePass);
    m_model->take(result);
    m_list->setCurrentIndex({});
    clearChoice();
    if (chosen)
        if (const int row = m_model->rowOf(*chosen); row >= 0)
            m_list->setCurrentIndex(m_model->index(row, 0));
    restate();
}

void FindingsPanel::restate() {
    const auto result = m_audit.result();
    const auto count = [&](audit::Severity severity) { return result ? result->count(severity) : 0; };
    QStringList parts;
    const auto errors = count(audit::Severity::Error);
    const auto doubts = count(audit::Severity::Doubt);
    const auto notes = count(audit::Severity::Note);
    if (errors)
        parts << (errors == 1 ? tr("1 error") : tr("%1 errors").arg(errors));
    if (doubts)
        parts << (doubts == 1 ? tr("1 doubt") : tr("%1 doubts").arg(doubts));
    if (notes)
        parts << (notes == 1 ? tr("1 note") : tr("%1 notes").arg(notes));
    m_count->setText(parts.join(QStringLiteral(" · ")));
    const bool none = parts.isEmpty();
    m_none->setVisible(none);
    m_list->setVisible(!none);
    const auto& set = m_document.set();
    if (!result || (!m_audit.isCurrent() && none))
        m_none->setText(tr("Looking for faults …"));
    else if (set.fences.empty() && set.homes.empty())
        m_none->setText(tr("Nothing to check yet. Faults appear here while you draw."));
    else
        m_none->setText(tr("Nothing found."));
}

void FindingsPanel::choose(int row) {
    m_chosen = m_model->at(row);
    emit chosen(*m_chosen);
    const bool repairable = m_chosen->repair.has_value();
    m_offer->setVisible(repairable);
    if (repairable)
        m_repair->setText(tr("%1, as the map shows it.").arg(session::translated(m_chosen->repair->title)));
    emit previewChanged(m_chosen->repair);
}

/// Audits go on while a menu is open: its finding may stand in another row by now, or be gone.
bool FindingsPanel::chooseStill(const audit::Finding& finding) {
    const int row = m_model->rowOf(finding);
    if (row < 0) {
        emit refused(tr("This is not found any more. Nothing was changed."));
        return false;
    }
    m_list->setCurrentIndex(m_model->index(row, 0));
    choose(row);
    return true;
}

void FindingsPanel::openMenu(const QPoint& at) {
    QModelIndex index = m_list->indexAt(at);
    if (!index.isValid()) // by the key for menus
        index = m_list->currentIndex();
    if (!index.isValid())
        return;
    const audit::Finding finding = m_model->at(index.row());
    const auto wordsOf = [](const audit::Finding& one) {
        return severityWords(one.severity) + ": " +
               (session::translated(one.words) + '\n' + session::translated(one.remedy)).trimmed();
    };
    auto* menu = new QMenu{this};
    menu->setObjectName("findingsMenu");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto add = [this, menu](const QString& words, auto act) {
        connect(menu->addAction(words), &QAction::triggered, this, act);
    };
    m_list->setCurrentIndex(index);
    add(tr("&Show its place"), [this, finding] { (void)chooseStill(finding); });
    if (finding.fence || finding.home)
        add(tr("&Edit what it is about"), [this, finding] {
            if (chooseStill(finding))
                emit editRequested();
        });
    if (finding.repair)
        add(tr("&Take repair: %1").arg(session::translated(finding.repair->title).replace('&', "&&")), [this, finding] {
            if (!chooseStill(finding))
                return;
            // What was read in the menu is done, and nothing else.
            if (m_chosen->repair && m_chosen->repair->title == finding.repair->title)
                take();
        });
    menu->addSeparator();
    add(tr("&Copy its words"), [words = wordsOf(finding)] { QGuiApplication::clipboard()->setText(words); });
    add(tr("Copy &all"), [this, wordsOf] {
        QStringList lines;
        for (int row = 0; row < m_model->rowCount({}); ++row)
            lines << wordsOf(m_model->at(row));
        QGuiApplication::clipboard()->setText(lines.join("\n\n"));
    });
    menu->popup(m_list->viewport()->mapToGlobal(at));
}

void FindingsPanel::clearChoice() {
    if (!m_chosen)
        return;
    m_chosen.reset();
    m_offer->hide();
    m_list->clearSelection();
    emit previewChanged(std::nullopt);
}

void FindingsPanel::take() {
    if (!m_chosen || !m_chosen->repair)
        return;
    model::Edit edit = *m_chosen->repair;
    clearChoice();
    try {
        m_document.push(std::move(edit));
    } catch (const Fault& fault) {
        emit refused(session::translated(fault));
    }
}

} // namespace fencewright::desktop
