#include "desktop/dialogs/import_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/dialogs/likely_column.h"
#include "desktop/panels/entry_notation.h"
#include "fault.h"
#include "geodesy/crs_transform.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

} // namespace

exchange::ReadRequest ImportChoices::request(const QString& path) const {
    exchange::ReadRequest request;
    request.path = path.toStdString();
    request.layer = layer;
    request.crs = crs;
    request.where = where;
    return request;
}

ImportDialog::ImportDialog(ImportPurpose purpose, exchange::VectorDescription description,
                           const session::Settings& settings, QWidget* parent)
    : QDialog{parent}, m_purpose{purpose}, m_description{std::move(description)},
      m_settings{settings}, m_layer{new QComboBox{this}}, m_about{new QLabel{this}}, m_crs{new QLineEdit{this}},
      m_crsWords{new QLabel{this}}, m_name{new QComboBox{this}}, m_where{new QLineEdit{this}},
      m_refusal{new QLabel{this}}, m_go{new QPushButton{this}} {
    setObjectName("importDialog");
    const QString file = QFileInfo{text(m_description.path)}.fileName();
    QString title;
    QString go;
    switch (purpose) {
    case ImportPurpose::Reference:
        title = tr("Add reference layer");
        go = tr("Add layer");
        break;
    case ImportPurpose::Fences:
        title = tr("Import fences");
        go = tr("Import fences");
        break;
    case ImportPurpose::Sites:
        title = tr("Import sites");
        go = tr("Import sites");
        break;
    case ImportPurpose::Homes:
        title = tr("Import homes");
        go = tr("Import homes");
        break;
    }
    setWindowTitle(title);
    setMinimumWidth(520);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{file, this};
    heading->setProperty("heading", true);
    column->addWidget(heading);
    m_about->setProperty("quiet", true);
    m_about->setWordWrap(true);
    column->addWidget(m_about);
    auto* form = new QFormLayout;
    form->setSpacing(8);
    form->setLabelAlignment(Qt::AlignLeft);
    m_layer->setObjectName("importLayer");
    for (const exchange::LayerDescription& layer : m_description.layers)
        m_layer->addItem(layer.features ? tr("%1  (%2 features)").arg(text(layer.name)).arg(*layer.features)
                                        : text(layer.name));
    if (m_description.layers.size() > 1)
        addRow(*form, tr("Layer"), m_layer);
    else
        m_layer->hide();
    m_crs->setObjectName("importCrs");
    m_crs->setPlaceholderText(QStringLiteral("EPSG:25829"));
    auto* coordinates = new QVBoxLayout;
    coordinates->setSpacing(4);
    coordinates->addWidget(m_crs);
    coordinates->addWidget(m_crsWords);
    addRow(*form, tr("Coordinates"), coordinates);
    m_crsWords->setProperty("quiet", true);
    m_crsWords->setWordWrap(true);
    m_name->setObjectName("importName");
    addRow(*form, purpose == ImportPurpose::Reference ? tr("Label column") : tr("Name column"), m_name);
    if (purpose == ImportPurpose::Reference) {
        m_number = new QComboBox{this};
        m_number->setObjectName("importNumber");
        addRow(*form, tr("Parcel number"), m_number);
    }
    if (purpose == ImportPurpose::Fences) {
        m_kind = new QComboBox{this};
        m_kind->setObjectName("importKind");
        m_kind->addItems({tr("keep-out: stay outside"), tr("keep-in: stay inside")});
        addRow(*form, tr("Rule if not stated"), m_kind);
    }
    if (purpose == ImportPurpose::Sites) {
        m_setback = new QLineEdit{this};
        m_setback->setObjectName("importSetback");
        m_setback->setPlaceholderText(tr("none; or 1/4 mi, 150 m …"));
        addRow(*form, tr("Keep out within"), m_setback);
        connect(m_setback, &QLineEdit::textChanged, this, &ImportDialog::check);
    }
    m_where->setObjectName("importWhere");
    m_where->setPlaceholderText(tr("all; or category = 'nest'"));
    addRow(*form, tr("Only where"), m_where);
    column->addLayout(form);
    m_refusal->setObjectName("importRefusal");
    m_refusal->setProperty("refusal", true);
    m_refusal->setWordWrap(true);
    column->addWidget(m_refusal);
    column->addStretch(1);
    m_go->setObjectName("importGo");
    m_go->setText(go);
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, &ImportDialog::go);
    connect(m_where, &QLineEdit::textEdited, this, &ImportDialog::check);
    connect(m_layer, &QComboBox::currentIndexChanged, this, &ImportDialog::fillColumns);
    connect(m_crs, &QLineEdit::textChanged, this, &ImportDialog::check);
    fillColumns();
}

void ImportDialog::fillColumns() {
    const int index = m_layer->currentIndex();
    if (index < 0 || std::size_t(index) >= m_description.layers.size())
        return check();
    const exchange::LayerDescription& layer = m_description.layers[std::size_t(index)];
    m_about->setText(tr("%1, geometry: %2").arg(text(m_description.format), text(layer.geometry)));
    m_crsWords->setText(layer.crs.empty()
                            ? tr("The file does not say in which system its coordinates are. Ask whoever made it, and "
                                 "name the system here: EPSG:4326 is longitude and latitude.")
                            : tr("The file says: %1.").arg(text(layer.crs)));
    m_crs->setVisible(layer.crs.empty());
    for (QComboBox* box : {m_name, m_number}) {
        if (!box)
            continue;
        box->clear();
        box->addItem(tr("none"));
        for (const std::string& field : layer.fields)
            box->addItem(text(field));
    }
    m_name->setCurrentIndex(m_number ? likelyLabel(layer.fields) : likelyName(layer.fields));
    if (m_number)
        m_number->setCurrentIndex(likelyNumber(layer.fields));
    check();
}

void ImportDialog::check() {
    QString refusal;
    if (m_description.layers.empty())
        refusal = tr("There is no layer of places in this file.");
    else if (m_crs->isVisibleTo(this)) {
        if (m_crs->text().trimmed().isEmpty()) {
            refusal = tr("Name the coordinate system to go on.");
        } else {
            try {
                const geodesy::CrsTransform transform{m_crs->text().trimmed().toStdString()};
                m_crsWords->setText(tr("That is %1.").arg(text(transform.name())));
            } catch (const Fault& fault) {
                refusal = session::translatedWithoutPlace(fault);
            }
        }
    }
    if (refusal.isEmpty() && m_setback && !m_setback->text().trimmed().isEmpty()) {
        try {
            (void)lengthFrom(m_setback->text(), m_settings.unitSystem(), LengthRange::Positive);
        } catch (const Fault& fault) {
            refusal = session::translatedWithoutPlace(fault);
        }
    }
    m_refusal->setText(refusal);
    m_go->setEnabled(refusal.isEmpty());
}

/// While a filter is tried: what is accepted then is what was tried.
void ImportDialog::setBusy(bool busy) {
    if (busy)
        setFocus(); // or the focus goes on to Cancel, and the next Enter with it
    for (QWidget* field : std::initializer_list<QWidget*>{m_layer, m_crs, m_name, m_number, m_kind, m_setback, m_where})
        if (field)
            field->setEnabled(!busy);
    m_go->setEnabled(!busy);
}

void ImportDialog::go() {
    ImportChoices wanted;
    try {
        wanted = choices();
    } catch (const Fault& fault) {
        return m_refusal->setText(session::translatedWithoutPlace(fault));
    }
    if (!m_trial || wanted.where.empty())
        return accept();
    setBusy(true);
    m_trial(wanted, [self = QPointer<ImportDialog>{this}](const QString& refusal) {
        if (!self)
            return;
        if (refusal.isEmpty())
            return self->accept();
        self->setBusy(false);
        self->check();
        self->m_refusal->setText(refusal);
        self->m_where->setFocus(Qt::OtherFocusReason);
    });
}

ImportChoices ImportDialog::choices() const {
    ImportChoices choices;
    if (const int index = m_layer->currentIndex(); index >= 0)
        choices.layer = m_description.layers[std::size_t(index)].name;
    if (m_crs->isVisibleTo(this))
        choices.crs = m_crs->text().trimmed().toStdString();
    if (m_name->currentIndex() > 0)
        choices.nameField = m_name->currentText().toStdString();
    if (m_number && m_number->currentIndex() > 0)
        choices.numberField = m_number->currentText().toStdString();
    if (m_kind && m_kind->currentIndex() == 1)
        choices.kind = model::FenceKind::KeepIn;
    if (m_setback && !m_setback->text().trimmed().isEmpty())
        choices.setback = lengthFrom(m_setback->text(), m_settings.unitSystem(), LengthRange::Positive);
    choices.where = m_where->text().trimmed().toStdString();
    return choices;
}

} // namespace fencewright::desktop
