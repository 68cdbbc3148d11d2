#include "desktop/panels/record_panel.h"

#include "desktop/panels/elided_label.h"
#include "desktop/panels/record_fields.h"
#include "exchange/database_address.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kMargin = 16;
constexpr int kHeadingSpacing = 12;

QString shapeWords(const model::Shape& shape) {
    struct Words {
        QString operator()(const model::DrawnPolygon&) const { return RecordPanel::tr("drawn"); }
        QString operator()(const model::Circle&) const { return RecordPanel::tr("circle"); }
        QString operator()(const model::Corridor&) const { return RecordPanel::tr("corridor"); }
        QString operator()(const model::Setback&) const { return RecordPanel::tr("setback of a site"); }
        QString operator()(const model::ParcelUnion& shape) const {
            return isOfParcels(shape) ? RecordPanel::tr("union of parcels") : RecordPanel::tr("several pieces");
        }
    };
    return std::visit(Words{}, shape);
}

/// "3 fences, 1 site".
QString severalWords(const Selection& selection) {
    int counts[3] = {};
    for (const Thing& thing : selection.things())
        ++counts[thing.index()];
    QStringList words;
    if (counts[0])
        words << (counts[0] == 1 ? RecordPanel::tr("1 fence") : RecordPanel::tr("%n fences", nullptr, counts[0]));
    if (counts[1])
        words << (counts[1] == 1 ? RecordPanel::tr("1 site") : RecordPanel::tr("%n sites", nullptr, counts[1]));
    if (counts[2])
        words << (counts[2] == 1 ? RecordPanel::tr("1 home") : RecordPanel::tr("%n homes", nullptr, counts[2]));
    return words.join(", ");
}

} // namespace

RecordPanel::RecordPanel(session::OpenDocument& document, session::SourceLibrary& sources, session::Settings& settings,
                         Appearance& appearance, QWidget* parent)
    : QWidget{parent}, m_document{document}, m_sources{sources}, m_settings{settings},
      m_appearance{appearance}, m_title{new ElidedLabel{this}}, m_sort{new ElidedLabel{this}}, m_none{new QLabel{this}},
      m_form{new FormGrid}, m_scroll{new QScrollArea{this}} {
    setObjectName("recordPanel");
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 12, 0, 8);
    column->setSpacing(8);
    m_title->setProperty("heading", true);
    m_title->setObjectName("recordTitle");
    m_title->setTextFormat(Qt::PlainText);
    m_sort->setObjectName("recordSort");
    m_sort->setTextFormat(Qt::PlainText);
    m_sort->setProperty("strong", true);
    m_sort->setProperty("small", true);
    auto* heading = new QHBoxLayout;
    heading->setContentsMargins(kMargin, 0, kMargin, 0);
    heading->setSpacing(kHeadingSpacing);
    heading->addWidget(m_title, 1);
    heading->addWidget(m_sort);
    column->addLayout(heading);
    m_none->setProperty("quiet", true);
    m_none->setWordWrap(true);
    m_none->setContentsMargins(16, 0, 16, 0);
    m_none->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    column->addWidget(m_none, 1);

    auto* inner = new QWidget;
    auto* innerColumn = new QVBoxLayout{inner};
    innerColumn->setContentsMargins(16, 0, 8, 4);
    innerColumn->setSpacing(8);
    innerColumn->addWidget(m_form);
    connect(m_form, &FormGrid::left, this, &RecordPanel::formLeft);
    const auto button = [this](const char* name, const QString& words) {
        auto* made = new QPushButton{words};
        made->setObjectName(name);
        made->setAutoDefault(false);
        return made;
    };
    m_zoom = button("recordZoom", tr("Show"));
    m_raise = button("recordRaise", tr("Raise"));
    m_lower = button("recordLower", tr("Lower"));
    m_locate = button("recordLocate", tr("Locate…"));
    m_connect = button("recordConnect", tr("Connect…"));
    m_retry = button("recordRetry", tr("Read again"));
    m_remove = button("recordRemove", tr("Delete"));
    // Two rows: all in one would be wider than the panel, and so would the form above.
    auto* mending = new QHBoxLayout;
    auto* buttons = new QHBoxLayout;
    for (QHBoxLayout* row : {mending, buttons})
        row->setSpacing(6);
    for (QPushButton* one : {m_locate, m_connect, m_retry})
        mending->addWidget(one);
    mending->addStretch(1);
    for (QPushButton* one : {m_zoom, m_raise, m_lower})
        buttons->addWidget(one);
    buttons->addStretch(1);
    buttons->addWidget(m_remove);
    innerColumn->addLayout(mending);
    innerColumn->addLayout(buttons);
    innerColumn->addStretch(1);
    m_scroll->setWidget(inner);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    column->addWidget(m_scroll, 1);

    connect(m_zoom, &QPushButton::clicked, this, &RecordPanel::zoomRequested);
    connect(m_remove, &QPushButton::clicked, this, &RecordPanel::removeRequested);
    connect(m_raise, &QPushButton::clicked, this, [this] { moveSource(1); });
    connect(m_lower, &QPushButton::clicked, this, [this] { moveSource(-1); });
    connect(m_locate, &QPushButton::clicked, this,
            [this] { emit locateRequested(std::get<model::SourceId>(m_chosen)); });
    connect(m_connect, &QPushButton::clicked, this,
            [this] { emit connectRequested(std::get<model::SourceId>(m_chosen)); });
    connect(m_retry, &QPushButton::clicked, this, [this] { m_sources.retry(std::get<model::SourceId>(m_chosen)); });
    connect(&document, &session::OpenDocument::changed, this, &RecordPanel::refresh);
    connect(&settings, &session::Settings::changed, this, &RecordPanel::refresh);
    connect(&sources, &session::SourceLibrary::sourceChanged, this, [this](const QString& id) {
        const auto* shown = std::get_if<model::SourceId>(&m_chosen);
        if (shown && QString::fromStdString(shown->value) == id)
            rebuild(); // its columns are known now
    });
    connect(&appearance, &Appearance::changed, this, &RecordPanel::restate);
    rebuild();
}

void RecordPanel::showChosen(const Chosen& chosen) {
    if (chosen == m_chosen && isThere())
        return;
    m_chosen = chosen;
    rebuild();
    m_scroll->verticalScrollBar()->setValue(0);
}

void RecordPanel::focusForm() { m_form->focusFirst(); }

LedgerKey RecordPanel::key() const {
    if (const auto* source = std::get_if<model::SourceId>(&m_chosen))
        return *source;
    const auto& things = std::get<Selection>(m_chosen).things();
    if (things.size() != 1)
        return {};
    return std::visit([](const auto& id) -> LedgerKey { return id; }, things.front());
}

/// What is shown, where it is more than one thing.
const Selection* RecordPanel::several() const {
    const auto* selection = std::get_if<Selection>(&m_chosen);
    return selection && selection->size() > 1 ? selection : nullptr;
}

bool RecordPanel::isThere() const {
    const auto& set = m_document.set();
    const LedgerKey one = key();
    if (several())
        return true;
    if (const auto* fence = std::get_if<model::FenceId>(&one))
        return set.fences.find(*fence);
    if (const auto* site = std::get_if<model::SiteId>(&one))
        return set.sites.find(*site);
    if (const auto* home = std::get_if<model::HomeId>(&one))
        return set.homes.find(*home);
    if (const auto* source = std::get_if<model::SourceId>(&m_chosen))
        return set.sources.find(*source);
    return false;
}

std::size_t RecordPanel::shapeIndex() const {
    const LedgerKey one = key();
    if (const auto* id = std::get_if<model::FenceId>(&one))
        if (const model::Fence* fence = m_document.set().fences.find(*id))
            return fence->shape.index();
    if (const auto* id = std::get_if<model::SiteId>(&one))
        if (const model::Site* site = m_document.set().sites.find(*id))
            return site->geometry.index();
    return 0;
}

void RecordPanel::rebuild() {
    m_shape = shapeIndex();
    std::vector<FormField> fields;
    const LedgerKey one = key();
    if (several()) {
        fields = severalFields();
    } else if (isThere()) {
        if (const auto* fence = std::get_if<model::FenceId>(&one))
            fields = fenceFields(m_document, m_settings, {*fence});
        else if (const auto* site = std::get_if<model::SiteId>(&one))
            fields = siteFields(m_document, m_settings, {*site});
        else if (const auto* home = std::get_if<model::HomeId>(&one))
            fields = homeFields(m_document, m_settings, {*home});
        else if (const auto* source = std::get_if<model::SourceId>(&m_chosen)) {
            m_sources.propose(*source);
            fields = sourceFields(m_document, m_sources, *source);
        }
    }
    for (FormField& field : fields)
        if (field.name == "fenceCorners" || field.name == "fenceLine") {
            field.kind = FormField::Kind::Action;
            field.choices = {tr("Table…")};
            field.write = [this](const QString&) { emit cornersRequested(); };
        }
    m_form->setFields(std::move(fields));
    restate();
}

/// Of things of one kind what is to be said of that kind; of several kinds, what holds of all.
std::vector<FormField> RecordPanel::severalFields() const {
    std::vector<model::FenceId> fences;
    std::vector<model::SiteId> sites;
    std::vector<model::HomeId> homes;
    for (const Thing& thing : several()->things()) {
        if (const auto* fence = std::get_if<model::FenceId>(&thing))
            fences.push_back(*fence);
        else if (const auto* site = std::get_if<model::SiteId>(&thing))
            sites.push_back(*site);
        else
            homes.push_back(std::get<model::HomeId>(thing));
    }
    std::vector<FormField> fields;
    const auto add = [&](std::vector<FormField> more) {
        std::move(more.begin(), more.end(), std::back_inserter(fields));
    };
    if (sites.empty() && homes.empty())
        add(fenceFields(m_document, m_settings, fences));
    else if (fences.empty() && homes.empty())
        add(siteFields(m_document, m_settings, sites));
    else if (fences.empty() && sites.empty())
        add(homeFields(m_document, m_settings, homes));
    return fields;
}

void RecordPanel::refresh() {
    if (!isThere()) {
        if (!m_title->text().isEmpty())
            rebuild();
        return;
    }
    if (m_shape != shapeIndex() || m_title->text().isEmpty())
        rebuild();
    else
        m_form->refresh();
    restate();
}

void RecordPanel::restate() {
    const bool there = isThere();
    const auto& set = m_document.set();
    QString title;
    QString sort;
    QColor ink = m_appearance.palette().quietText;
    const LedgerKey one = key();
    if (several()) {
        title = tr("%n selected", nullptr, int(several()->size()));
        sort = severalWords(*several());
    } else if (there) {
        if (const auto* id = std::get_if<model::FenceId>(&one)) {
            const model::Fence& fence = *set.fences.find(*id);
            const bool keepIn = fence.kind == model::FenceKind::KeepIn;
            title = QString::fromStdString(fence.name);
            sort = (keepIn ? tr("keep-in") : tr("keep-out")) + QStringLiteral(" · ") + shapeWords(fence.shape);
            ink = keepIn ? m_appearance.palette().keepIn : m_appearance.palette().keepOut;
        } else if (const auto* site = std::get_if<model::SiteId>(&one)) {
            title = QString::fromStdString(set.sites.find(*site)->name);
            sort = tr("site");
        } else if (const auto* home = std::get_if<model::HomeId>(&one)) {
            title = QString::fromStdString(set.homes.find(*home)->name);
            sort = set.homes.find(*home)->kind == model::HomeKind::Home ? tr("home") : tr("alternate");
        } else if (const auto* source = std::get_if<model::SourceId>(&m_chosen)) {
            title = QString::fromStdString(set.sources.find(*source)->name);
            sort =
                set.sources.find(*source)->kind == model::SourceKind::Imagery ? tr("imagery") : tr("reference layer");
        }
    }
    m_title->setText(title);
    m_title->setVisible(there);
    m_sort->setText(sort);
    shareHeading();
    m_sort->setStyleSheet(QString{"color: %1"}.arg(ink.name()));
    const bool nothing = set.fences.empty() && set.sites.empty() && set.homes.empty() && set.sources.empty();
    m_none->setVisible(!there);
    m_none->setText(nothing ? QString{} : tr("Choose a row above, or click on the map, to see and type its numbers."));
    m_scroll->setVisible(there);
    const auto* source = std::get_if<model::SourceId>(&m_chosen);
    const auto* loaded = source ? m_sources.find(*source) : nullptr;
    const bool failed = loaded && loaded->state == session::LoadedSource::State::Failed;
    m_raise->setVisible(source);
    m_lower->setVisible(source);
    const bool server = loaded && raster::isServerAddress(loaded->source->path);
    const bool table = loaded && exchange::isDatabaseAddress(loaded->source->path);
    const bool kept = table && !loaded->words.isEmpty(); // it is shown, but not as it is on the server
    m_locate->setText(table ? tr("Connect…") : tr("Locate…"));
    m_locate->setVisible((failed && !server) || kept);
    m_connect->setVisible(server);
    m_retry->setVisible(failed || kept || (loaded && !loaded->trouble.isEmpty()));
    if (source && there) {
        const auto index = set.sources.indexOf(*source);
        m_raise->setEnabled(index + 1 < set.sources.size());
        m_lower->setEnabled(index > 0);
    }
    m_remove->setText(source ? tr("Remove") : tr("Delete"));
}

void RecordPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    shareHeading();
}

/// The name is read first: what it is gives way, down to two fifths of the line.
void RecordPanel::shareHeading() {
    const int room = width() - 2 * kMargin - kHeadingSpacing;
    const int most = std::max(room - m_sort->wholeWidth(), room * 3 / 5);
    m_title->setMinimumWidth(std::min(m_title->wholeWidth(), most));
}

void RecordPanel::addOffers(QMenu& menu) {
    for (QAbstractButton* button :
         std::initializer_list<QAbstractButton*>{m_zoom, m_raise, m_lower, m_locate, m_connect, m_retry, m_remove}) {
        if (button->isHidden())
            continue;
        const QString words = button->text().isEmpty() ? button->accessibleName() : button->text();
        QAction* action = menu.addAction(words);
        action->setEnabled(button->isEnabled());
        connect(action, &QAction::triggered, button, &QAbstractButton::click);
    }
}

void RecordPanel::moveSource(int step) {
    const auto* id = std::get_if<model::SourceId>(&m_chosen);
    if (!id || !isThere())
        return;
    const auto index = m_document.set().sources.indexOf(*id);
    m_document.push(model::moveSource(m_document.set(), *id, std::size_t(std::max(0, int(index) + step))));
}

} // namespace fencewright::desktop
