#include "desktop/dialogs/delivery_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/panels/symbols.h"
#include "units/measure_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

/// One unit of the last decimal of a degree along a meridian: 1 degree is about 111.2 km.
QString stepWords(int decimals) {
    const double metres = 111'195.0 / std::pow(10.0, decimals);
    return metres >= 1      ? DeliveryDialog::tr("steps of %1 m").arg(metres, 0, 'f', 0)
           : metres >= 0.01 ? DeliveryDialog::tr("steps of %1 cm").arg(metres * 100, 0, 'f', 0)
                            : DeliveryDialog::tr("steps of %1 mm").arg(metres * 1000, 0, 'g', 2);
}

} // namespace

DeliveryDialog::DeliveryDialog(const QString& proposal, std::size_t enabledFences, std::optional<std::size_t> errors,
                               QWidget* parent)
    : QDialog{parent}, m_format{new QComboBox{this}}, m_path{new QLineEdit{this}}, m_decimals{new QSpinBox{this}},
      m_decimalsWords{new QLabel{this}}, m_caution{new QLabel{this}}, m_older{new QLabel{this}},
      m_corners{new QSpinBox{this}}, m_sites{new QCheckBox{this}}, m_homes{new QCheckBox{this}},
      m_refusal{new QLabel{this}}, m_go{new QPushButton{tr("Deliver"), this}}, m_fences{enabledFences} {
    setObjectName("deliveryDialog");
    setWindowTitle(tr("Deliver"));
    setMinimumWidth(560);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading =
        new QLabel{enabledFences == 1 ? tr("Deliver 1 fence") : tr("Deliver %1 fences").arg(enabledFences), this};
    heading->setProperty("heading", true);
    column->addWidget(heading);
    auto* about = new QLabel{tr("Whatever is rounded or simplified makes keep-outs larger and keep-ins smaller, never "
                                "the other way. The file is read back and compared before it counts as delivered."),
                             this};
    about->setProperty("quiet", true);
    about->setWordWrap(true);
    column->addWidget(about);
    m_caution->setObjectName("deliveryCaution");
    m_older->setObjectName("deliveryOlder");
    m_older->setText(tr("The document was changed meanwhile: the set is delivered as it was before."));
    for (QLabel* label : {m_caution, m_older}) {
        label->setProperty("refusal", true);
        label->setWordWrap(true);
        label->hide();
        column->addWidget(label);
    }
    showErrors(errors);
    auto* form = new QFormLayout;
    form->setSpacing(8);
    const auto quiet = [this](const QString& words) {
        auto* label = new QLabel{words, this};
        label->setProperty("quiet", true);
        return label;
    };
    m_format->setObjectName("deliveryFormat");
    for (const exchange::DeliveryFormatInfo& format : exchange::deliveryFormats())
        m_format->addItem(text(format.name));
    addRow(*form, tr("Format"), m_format);
    m_path->setObjectName("deliveryPath");
    m_path->setText(proposal);
    auto* browse = new QPushButton{tr("Browse…"), this};
    browse->setAutoDefault(false);
    auto* file = new QHBoxLayout;
    file->addWidget(m_path, 1);
    file->addWidget(browse);
    addRow(*form, tr("File"), file);
    m_decimals->setObjectName("deliveryDecimals");
    m_decimals->setRange(4, 12);
    m_decimals->setValue(7);
    m_decimalsWords->setProperty("quiet", true);
    auto* decimals = new QHBoxLayout;
    decimals->addWidget(m_decimals);
    decimals->addWidget(m_decimalsWords, 1);
    addRow(*form, tr("Decimals of a degree"), decimals);
    m_corners->setObjectName("deliveryCorners");
    m_corners->setRange(0, 100'000);
    m_corners->setSpecialValueText(tr("no limit"));
    m_corners->setSingleStep(10);
    m_corners->setMinimumWidth(110);
    auto* corners = new QHBoxLayout;
    corners->addWidget(m_corners);
    corners->addWidget(quiet(tr("some devices hold only so many")), 1);
    addRow(*form, tr("Most corners per fence"), corners);
    m_sites->setObjectName("deliverySites");
    m_sites->setText(tr("Sites, without the confidential ones"));
    m_sites->setChecked(true);
    m_homes->setObjectName("deliveryHomes");
    m_homes->setText(tr("Homes and alternates"));
    m_homes->setChecked(true);
    addRow(*form, tr("Also"), m_sites);
    form->addRow(new QLabel{this}, m_homes);
    column->addLayout(form);
    m_refusal->setProperty("refusal", true);
    m_refusal->setWordWrap(true);
    column->addWidget(m_refusal);
    m_go->setObjectName("deliveryGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    connect(browse, &QPushButton::clicked, this, &DeliveryDialog::browse);
    connect(m_format, &QComboBox::currentIndexChanged, this, &DeliveryDialog::followFormat);
    connect(m_path, &QLineEdit::textChanged, this, &DeliveryDialog::check);
    connect(m_decimals, &QSpinBox::valueChanged, this,
            [this](int value) { m_decimalsWords->setText(stepWords(value)); });
    m_decimalsWords->setText(stepWords(m_decimals->value()));
    followFormat();
}

void DeliveryDialog::showErrors(std::optional<std::size_t> errors) {
    m_caution->setText(!errors ? tr("The audit of this set is not finished.")
                       : *errors == 1
                           ? tr("The audit reports 1 error: this set should not be flown as it is.")
                           : tr("The audit reports %1 errors: this set should not be flown as it is.").arg(*errors));
    m_caution->setVisible(errors != 0U);
}

void DeliveryDialog::showOlder(bool older) { m_older->setVisible(older); }

QString DeliveryDialog::path() const { return m_path->text().trimmed(); }

exchange::DeliveryOptions DeliveryDialog::options() const {
    exchange::DeliveryOptions options;
    options.format = exchange::deliveryFormats()[std::size_t(m_format->currentIndex())].format;
    options.decimals = m_decimals->value();
    options.cornerBudget = std::size_t(m_corners->value());
    options.withSites = m_sites->isChecked();
    options.withHomes = m_homes->isChecked();
    return options;
}

void DeliveryDialog::followFormat() {
    QString path = m_path->text();
    for (const exchange::DeliveryFormatInfo& format : exchange::deliveryFormats())
        if (path.endsWith(text(format.suffix)))
            path.chop(int(format.suffix.size()));
    m_path->setText(path + text(exchange::deliveryFormats()[std::size_t(m_format->currentIndex())].suffix));
    check();
}

void DeliveryDialog::browse() {
    const auto& format = exchange::deliveryFormats()[std::size_t(m_format->currentIndex())];
    auto* dialog = new QFileDialog{this, tr("Deliver to"), QFileInfo{path()}.absolutePath(),
                                   QStringLiteral("%1 (*%2)").arg(text(format.name), text(format.suffix))};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->selectFile(QFileInfo{path()}.fileName());
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& chosen) { m_path->setText(chosen); });
    dialog->open();
}

void DeliveryDialog::check() {
    QString refusal;
    const QFileInfo file{path()};
    if (m_fences == 0)
        refusal = tr("There is no enabled fence to deliver.");
    else if (path().isEmpty() || file.fileName().isEmpty())
        refusal = tr("Name a file.");
    else if (!file.absoluteDir().exists())
        refusal = tr("There is no folder %1.").arg(file.absolutePath());
    else if (file.isDir())
        refusal = tr("That is a folder; name a file in it.");
    m_refusal->setText(refusal);
    m_go->setEnabled(refusal.isEmpty());
}

} // namespace fencewright::desktop
