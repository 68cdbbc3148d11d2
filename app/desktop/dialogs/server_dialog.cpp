#include "desktop/dialogs/server_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "raster/dataset.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kUsualDeepest = 19;
constexpr int kDeepest = 22; // that raster::Dataset reads

QString text(const std::string& words) { return QString::fromStdString(words); }

QLabel* quiet(const QString& words, QWidget* parent) {
    auto* label = new QLabel{words, parent};
    label->setProperty("quiet", true);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    return label;
}

bool isTemplate(const std::string& address) { return address.find("{x}") != std::string::npos; }

} // namespace

ServerDialog::ServerDialog(session::BackgroundJobs& jobs, std::shared_ptr<raster::ServerAccess> servers,
                           QWidget* parent)
    : QDialog{parent}, m_jobs{jobs}, m_servers{std::move(servers)}, m_asking{std::make_shared<Asking>()},
      m_address{new QLineEdit{this}}, m_credentials{new CredentialFields{this}}, m_ask{new QPushButton{
                                                                                     tr("Ask the server"), this}},
      m_state{new QLabel{this}}, m_choices{new QWidget{this}}, m_layers{new QListWidget{m_choices}},
      m_styleLabel{quiet(tr("Style"), m_choices)}, m_style{new QComboBox{m_choices}},
      m_gridLabel{quiet(tr("Grid of tiles"), m_choices)}, m_grid{new QComboBox{m_choices}},
      m_deepestLabel{quiet(tr("Deepest zoom"), m_choices)}, m_deepest{new QSpinBox{m_choices}}, m_name{new QLineEdit{
                                                                                                    m_choices}},
      m_elsewhere{new QLabel{m_choices}}, m_go{new QPushButton{tr("Add imagery"), this}} {
    setObjectName("serverDialog");
    setWindowTitle(tr("Add imagery from a server"));
    setMinimumWidth(600);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);

    auto* address = new QHBoxLayout;
    m_address->setObjectName("serverAddress");
    m_address->setAccessibleName(tr("Address"));
    m_address->setPlaceholderText(QStringLiteral("https://tiles.example.org/{z}/{x}/{y}.jpg"));
    m_ask->setObjectName("serverAsk");
    m_ask->setAutoDefault(false);
    address->addWidget(m_address, 1);
    address->addWidget(m_ask);
    column->addLayout(address);
    column->addWidget(quiet(tr("Tiles: the address of one, with {z} for the zoom, {x} for the column and {y} for the "
                               "row; {-y} where rows count from the south. Web Map Tile Service: the address of the "
                               "service or of its capabilities. {key} where a key belongs."),
                            this));
    column->addWidget(m_credentials);
    m_state->setObjectName("serverState");
    m_state->setWordWrap(true);
    m_state->setTextFormat(Qt::PlainText);
    column->addWidget(m_state);

    auto* choices = new QFormLayout{m_choices};
    choices->setContentsMargins(0, 0, 0, 0);
    choices->setSpacing(8);
    choices->setLabelAlignment(Qt::AlignLeft);
    m_layers->setObjectName("serverLayers");
    m_layers->setAccessibleName(tr("Layers"));
    m_layers->setFixedHeight(124);
    choices->addRow(m_layers);
    m_style->setObjectName("serverStyle");
    m_style->setAccessibleName(tr("Style"));
    choices->addRow(m_styleLabel, m_style);
    m_grid->setObjectName("serverGrid");
    m_grid->setAccessibleName(tr("Grid of tiles"));
    choices->addRow(m_gridLabel, m_grid);
    m_deepest->setObjectName("serverDeepest");
    m_deepest->setAccessibleName(tr("Deepest zoom"));
    m_deepest->setRange(0, kDeepest);
    m_deepest->setValue(kUsualDeepest);
    choices->addRow(m_deepestLabel, m_deepest);
    m_name->setObjectName("serverName");
    m_name->setAccessibleName(tr("Name"));
    auto* nameLabel = quiet(tr("Name"), m_choices);
    nameLabel->setMinimumWidth(104);
    choices->addRow(nameLabel, m_name);
    m_elsewhere->setObjectName("serverElsewhere");
    m_elsewhere->setWordWrap(true);
    m_elsewhere->setTextFormat(Qt::PlainText);
    choices->addRow(m_elsewhere);
    column->addWidget(m_choices);

    auto* caution =
        quiet(tr("Imagery of a server may be years old and lie metres beside its true place; when it was "
                 "taken is not known unless its owner says so. Compare it with something that was measured. "
                 "Tiles are kept on this computer for a week, or as long as the server says, in at most "
                 "1 GB."),
              this);
    caution->setObjectName("serverCaution");
    column->addWidget(caution);
    column->addStretch(1);
    m_go->setObjectName("serverGo");
    m_go->setAutoDefault(false);
    addButtons(*this, *column, *m_go);

    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    connect(m_ask, &QPushButton::clicked, this, &ServerDialog::ask);
    connect(m_address, &QLineEdit::textEdited, this, &ServerDialog::forget);
    connect(m_credentials, &CredentialFields::edited, this, &ServerDialog::forget);
    connect(m_layers, &QListWidget::currentRowChanged, this, &ServerDialog::chooseLayer);
    connect(m_name, &QLineEdit::textChanged, this, &ServerDialog::check);
    forget();
    m_address->setFocus();
}

ServerDialog::~ServerDialog() {
    if (m_job)
        m_job->cancel();
}

const raster::ServerLayer* ServerDialog::layer() const {
    const int row = m_layers->currentRow();
    return m_found && row >= 0 && std::size_t(row) < m_found->layers.size() ? &m_found->layers[std::size_t(row)]
                                                                            : nullptr;
}

QString ServerDialog::address() const {
    if (!m_found) {
        if (m_asked.find("zoom=") != std::string::npos)
            return text(m_asked);
        return text(m_asked) + (m_asked.find('#') == std::string::npos ? QStringLiteral("#") : QStringLiteral("&")) +
               QStringLiteral("zoom=0-%1").arg(m_deepest->value());
    }
    const raster::ServerLayer* chosen = layer();
    return chosen ? text(raster::layerAddress(m_asked, *chosen, m_style->currentData().toString().toStdString(),
                                              m_grid->currentData().toString().toStdString()))
                  : QString{};
}

QString ServerDialog::name() const { return m_name->text().trimmed(); }

void ServerDialog::ask() {
    raster::TypedAddress typed;
    try {
        typed = raster::withoutSecrets(m_address->text().toStdString());
    } catch (const Fault& fault) {
        return refuse(fault);
    }
    m_address->setText(text(typed.address));
    m_credentials->setAddress(text(typed.address));
    raster::Credentials credentials = m_credentials->credentials();
    if (!typed.credentials.empty()) {
        if (!typed.credentials.key.empty())
            credentials.key = typed.credentials.key;
        if (!typed.credentials.user.empty()) {
            credentials.user = typed.credentials.user;
            credentials.password = typed.credentials.password;
        }
        m_credentials->setCredentials(credentials);
    }
    forget();
    // Naming it here and asking is what makes it a server that the person named.
    m_servers->allow(typed.address);
    m_servers->setCredentials(typed.address, credentials);
    m_servers->forget(typed.address);
    m_state->setProperty("refusal", false);
    m_state->setText(tr("Asking %1 …").arg(text(raster::serverOf(typed.address))));
    m_state->style()->polish(m_state);
    m_ask->setEnabled(false);

    const std::weak_ptr<Asking> asking = m_asking;
    const int number = m_asking->number;
    const auto stillAsked = [asking, number] {
        const auto still = asking.lock();
        return still && still->number == number;
    };
    const auto failed = [this, stillAsked](const Fault& fault) {
        if (stillAsked())
            refuse(fault);
    };
    const QString title = tr("Asking %1").arg(text(raster::serverOf(typed.address)));
    if (isTemplate(typed.address)) {
        m_job = m_jobs.start(
            title,
            [address = typed.address, servers = m_servers](const Progress& progress) {
                raster::OpenOptions options;
                options.servers = servers;
                return raster::Dataset{address, options, progress}.description().width;
            },
            [this, stillAsked, address = typed.address](int) {
                if (!stillAsked())
                    return;
                m_asked = address;
                takeTemplate();
            },
            failed);
    } else {
        m_job = m_jobs.start(
            title,
            [address = typed.address, servers = m_servers](const Progress& progress) {
                return raster::describeServer(address, *servers, progress);
            },
            [this, stillAsked](const raster::ServerDescription& found) {
                if (!stillAsked())
                    return;
                m_asked = found.address;
                takeService(found);
            },
            failed);
    }
}

void ServerDialog::takeTemplate() {
    m_ask->setEnabled(true);
    m_found.reset();
    m_state->setText(tr("The server answers with tiles."));
    for (QWidget* one :
         {static_cast<QWidget*>(m_layers), static_cast<QWidget*>(m_styleLabel), static_cast<QWidget*>(m_style),
          static_cast<QWidget*>(m_gridLabel), static_cast<QWidget*>(m_grid), static_cast<QWidget*>(m_elsewhere)})
        one->hide();
    const bool saysZooms = m_asked.find("zoom=") != std::string::npos;
    m_deepestLabel->setVisible(!saysZooms);
    m_deepest->setVisible(!saysZooms);
    const std::string server = raster::serverOf(m_asked);
    m_name->setText(text(server.substr(server.find("://") + 3)));
    m_choices->show();
    adjustSize();
    check();
    m_name->setFocus();
    m_name->selectAll();
}

void ServerDialog::takeService(const raster::ServerDescription& found) {
    m_ask->setEnabled(true);
    m_found = found;
    const auto usable = std::count_if(found.layers.begin(), found.layers.end(),
                                      [](const raster::ServerLayer& one) { return !one.grids.empty(); });
    m_state->setText(tr("%1: layers: %2, of which can be shown: %3.")
                         .arg(found.title.empty() ? tr("The service") : text(found.title))
                         .arg(found.layers.size())
                         .arg(usable));
    m_layers->clear();
    int first = -1;
    for (const raster::ServerLayer& one : found.layers) {
        auto* item = new QListWidgetItem{text(one.title), m_layers};
        if (one.grids.empty()) {
            item->setText(tr("%1 (cannot be shown: %2)").arg(text(one.title), session::translated(one.reason)));
            item->setToolTip(item->text());
            item->setFlags(Qt::NoItemFlags);
            QFont slanted = item->font();
            slanted.setItalic(true);
            item->setFont(slanted);
        } else if (first < 0) {
            first = m_layers->row(item);
        }
    }
    m_deepestLabel->hide();
    m_deepest->hide();
    m_layers->show();
    m_choices->show();
    adjustSize();
    m_layers->setCurrentRow(first);
    chooseLayer();
    m_layers->setFocus();
}

void ServerDialog::chooseLayer() {
    const raster::ServerLayer* chosen = layer();
    m_style->clear();
    m_grid->clear();
    if (chosen) {
        for (const raster::ServerLayer::Style& style : chosen->styles)
            m_style->addItem(text(style.title.empty() ? style.name : style.title), text(style.name));
        for (const raster::ServerLayer::Grid& grid : chosen->grids)
            m_grid->addItem(tr("%1 (%2)").arg(text(grid.name), text(grid.crs)), text(grid.name));
        m_name->setText(text(chosen->title));
    }
    const bool styles = m_style->count() > 1;
    m_style->setVisible(styles);
    m_styleLabel->setVisible(styles);
    const bool grids = m_grid->count() > 1;
    m_grid->setVisible(grids);
    m_gridLabel->setVisible(grids);
    const bool elsewhere = chosen && chosen->tileServer != raster::serverOf(m_asked);
    m_elsewhere->setVisible(elsewhere);
    if (elsewhere)
        m_elsewhere->setText(tr("Its tiles come from another server, %1. Adding it means that this one is asked, too; "
                                "it is told neither name nor password.")
                                 .arg(text(chosen->tileServer)));
    check();
}

void ServerDialog::refuse(const Fault& fault) {
    m_ask->setEnabled(true);
    m_state->setProperty("refusal", true);
    m_state->setText(session::translatedWithoutPlace(fault));
    adjustSize(); // room for all lines of it
    m_state->style()->polish(m_state);
    check();
    const QString words = session::translated(fault.words().problem);
    if (words.contains(QStringLiteral("HTTP status 40")) || words.contains(QStringLiteral("wants a key")))
        m_credentials->focusFirst();
}

void ServerDialog::forget() {
    ++m_asking->number;
    if (m_job)
        m_job->cancel();
    m_asked.clear();
    m_found.reset();
    m_layers->clear();
    m_choices->hide();
    m_state->setText({});
    m_ask->setEnabled(!m_address->text().trimmed().isEmpty());
    m_credentials->setAddress(m_address->text());
    check();
}

void ServerDialog::check() {
    const bool good = !m_asked.empty() && !name().isEmpty() && (!m_found || layer());
    m_go->setEnabled(good);
    // Enter asks until there is something to add.
    m_go->setDefault(good);
    m_ask->setDefault(!good);
}

} // namespace fencewright::desktop
