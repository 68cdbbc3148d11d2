#include "desktop/dialogs/table_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/dialogs/likely_column.h"
#include "exchange/database_address.h"
#include "fault.h"
#include "geodesy/crs_transform.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr std::chrono::seconds kPatience{60};

QString text(const std::string& words) { return QString::fromStdString(words); }

/// Numbers by their value, not by their digits.
class CountItem : public QTreeWidgetItem {
public:
    using QTreeWidgetItem::QTreeWidgetItem;
    bool operator<(const QTreeWidgetItem& other) const override {
        const int column = treeWidget() ? treeWidget()->sortColumn() : 0;
        const QVariant mine = data(column, Qt::UserRole);
        return mine.isValid() ? mine.toULongLong() < other.data(column, Qt::UserRole).toULongLong()
                              : QTreeWidgetItem::operator<(other);
    }
};

} // namespace

TableDialog::TableDialog(session::BackgroundJobs& jobs, QString readerProgram, QWidget* parent)
    : QDialog{parent}, m_jobs{jobs},
      m_readerProgram{std::move(readerProgram)}, m_address{new QLineEdit{this}}, m_user{new QLineEdit{this}},
      m_password{new QLineEdit{this}}, m_doorRefusal{new QLabel{this}}, m_connect{new QPushButton{tr("Connect"), this}},
      m_inside{new QWidget{this}}, m_find{new QLineEdit{m_inside}}, m_tables{new QTreeWidget{m_inside}},
      m_remark{new QLabel{m_inside}}, m_form{new QFormLayout}, m_crs{new QLineEdit{m_inside}},
      m_label{new QComboBox{m_inside}}, m_number{new QComboBox{m_inside}}, m_where{new QLineEdit{m_inside}},
      m_whereRefusal{new QLabel{m_inside}}, m_go{new QPushButton{tr("Add table"), this}} {
    setObjectName("tableDialog");
    setWindowTitle(tr("Add a table from a PostGIS server"));
    setMinimumSize(640, 560);
    const auto quiet = [](const QString& words, QWidget* of) {
        auto* label = new QLabel{words, of};
        label->setProperty("quiet", true);
        label->setMinimumWidth(104);
        return label;
    };
    const auto refusal = [](QLabel* label, const char* name) {
        label->setObjectName(name);
        label->setProperty("refusal", true);
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
        label->hide();
    };
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);

    auto* door = new QFormLayout;
    door->setSpacing(8);
    door->setLabelAlignment(Qt::AlignLeft);
    const auto row = [&](QFormLayout* form, const QString& words, QLineEdit* edit, const char* name,
                         const QString& placeholder) {
        edit->setObjectName(name);
        edit->setAccessibleName(words);
        edit->setPlaceholderText(placeholder);
        auto* label = quiet(words, edit->parentWidget());
        label->setBuddy(edit);
        form->addRow(label, edit);
    };
    row(door, tr("Address"), m_address, "tableAddress", QStringLiteral("postgresql://host:5432/database"));
    row(door, tr("Your name there"), m_user, "tableUser", tr("if another than on this machine"));
    row(door, tr("Password"), m_password, "tablePassword", tr("if the server asks for one"));
    m_password->setEchoMode(QLineEdit::Password);
    column->addLayout(door);
    auto* knocking = new QHBoxLayout;
    auto* secrecy =
        quiet(tr("The password is kept in memory until the window is closed, and written down nowhere."), this);
    secrecy->setWordWrap(true);
    m_connect->setObjectName("tableConnect");
    knocking->addWidget(secrecy, 1);
    knocking->addWidget(m_connect);
    column->addLayout(knocking);
    refusal(m_doorRefusal, "tableDoorRefusal");
    column->addWidget(m_doorRefusal);

    auto* inside = new QVBoxLayout{m_inside};
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(8);
    m_find->setObjectName("tableFind");
    m_find->setPlaceholderText(tr("Find a table"));
    m_find->setAccessibleName(tr("Find a table"));
    m_find->setClearButtonEnabled(true);
    inside->addWidget(m_find);
    m_tables->setObjectName("tableList");
    m_tables->setAccessibleName(tr("Tables with places"));
    m_tables->setRootIsDecorated(false);
    m_tables->setUniformRowHeights(true);
    m_tables->setAllColumnsShowFocus(true);
    m_tables->setSortingEnabled(true);
    m_tables->setHeaderLabels({tr("Table"), tr("Shapes"), tr("Coordinates"), tr("Rows, about")});
    m_tables->header()->setStretchLastSection(false);
    m_tables->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_tables->headerItem()->setTextAlignment(3, Qt::AlignRight | Qt::AlignVCenter);
    inside->addWidget(m_tables, 1);
    m_remark->setObjectName("tableRemark");
    m_remark->setProperty("quiet", true);
    m_remark->setTextFormat(Qt::PlainText);
    m_remark->setWordWrap(true);
    inside->addWidget(m_remark);
    m_form->setSpacing(8);
    m_form->setLabelAlignment(Qt::AlignLeft);
    row(m_form, tr("Coordinates"), m_crs, "tableCrs", QStringLiteral("EPSG:25829"));
    const auto choice = [&](const QString& words, QComboBox* box, const char* name) {
        box->setObjectName(name);
        box->setAccessibleName(words);
        m_form->addRow(quiet(words, m_inside), box);
    };
    choice(tr("Label column"), m_label, "tableLabel");
    choice(tr("Parcel number"), m_number, "tableNumber");
    row(m_form, tr("Only where"), m_where, "tableWhere", tr("all; or category = 'lease' AND area > 500"));
    inside->addLayout(m_form);
    refusal(m_whereRefusal, "tableWhereRefusal");
    inside->addWidget(m_whereRefusal);
    column->addWidget(m_inside, 1);
    column->addStretch(0);

    m_go->setObjectName("tableGo");
    addButtons(*this, *column, *m_go);
    // Enter goes on where one is: to the tables, then to the map.
    for (QPushButton* button : {m_connect, m_go})
        button->setAutoDefault(false);
    m_connect->setDefault(true);

    connect(m_connect, &QPushButton::clicked, this, &TableDialog::knock);
    connect(m_go, &QPushButton::clicked, this, &TableDialog::tryTable);
    for (QLineEdit* edit : {m_address, m_user, m_password})
        connect(edit, &QLineEdit::textEdited, this, [this] {
            // Another door: what lay behind the former one is not to be taken.
            m_description = {};
            m_tables->clear();
            m_connect->setDefault(true);
            refuse(m_doorRefusal, {});
            check();
        });
    connect(m_find, &QLineEdit::textChanged, this, [this](const QString& words) {
        for (int i = 0; i < m_tables->topLevelItemCount(); ++i) {
            QTreeWidgetItem* item = m_tables->topLevelItem(i);
            item->setHidden(!item->text(0).contains(words, Qt::CaseInsensitive));
        }
    });
    connect(m_tables, &QTreeWidget::currentItemChanged, this, &TableDialog::chooseTable);
    connect(m_tables, &QTreeWidget::itemDoubleClicked, this, [this] {
        if (m_go->isEnabled())
            tryTable();
    });
    connect(m_crs, &QLineEdit::textChanged, this, &TableDialog::check);
    connect(m_where, &QLineEdit::textEdited, this, [this] { refuse(m_whereRefusal, {}); });
    chooseTable();
    m_address->setFocus(Qt::OtherFocusReason);
}

void TableDialog::refuse(QLabel* at, const QString& words) {
    at->setText(words);
    at->setVisible(!words.isEmpty());
    QLineEdit* field = at == m_doorRefusal ? m_address : m_where;
    field->setProperty("refused", !words.isEmpty());
    field->setAccessibleDescription(words);
    field->style()->unpolish(field);
    field->style()->polish(field);
}

/// The server answers about what it was asked, so that stays as it is until then.
void TableDialog::setBusy(bool busy) {
    m_busy = busy;
    if (busy) {
        m_focus = focusWidget();
        setFocus(); // or the focus goes on to Cancel, and the next Enter with it
    }
    m_connect->setText(busy ? tr("Asking …") : tr("Connect"));
    check();
    if (!busy && m_focus)
        m_focus->setFocus(Qt::OtherFocusReason);
}

std::optional<std::string> TableDialog::address() {
    try {
        QString typed = m_address->text().trimmed();
        if (!typed.isEmpty() && !typed.contains("://"))
            typed.prepend("postgresql://");
        exchange::DatabaseAddress parts = exchange::parseDatabaseAddress(typed.toStdString());
        if (const QString user = m_user->text().trimmed(); !user.isEmpty())
            parts.user = user.toStdString();
        else if (!parts.user.empty())
            m_user->setText(text(parts.user));
        return exchange::text(parts);
    } catch (const Fault& fault) {
        refuse(m_doorRefusal, session::translatedWithoutPlace(fault));
        return std::nullopt;
    }
}

void TableDialog::knock() {
    refuse(m_doorRefusal, {});
    const auto whole = address();
    if (!whole || m_busy)
        return;
    setBusy(true);
    exchange::ReadRequest request;
    request.path = *whole;
    request.password = m_password->text().toStdString();
    const QPointer<TableDialog> self{this};
    m_jobs.start(
        tr("Asking %1").arg(text(*whole)),
        [reader = m_readerProgram.toStdString(), request](const Progress& progress) {
            exchange::ChildLimits limits;
            limits.time = kPatience;
            return exchange::describeDatabaseApart(reader, request, limits, progress);
        },
        [self](const exchange::VectorDescription& description) {
            if (!self)
                return;
            self->setBusy(false);
            self->list(description);
        },
        [self](const Fault& fault) {
            if (!self)
                return;
            self->setBusy(false);
            self->refuse(self->m_doorRefusal, session::translatedWithoutPlace(fault));
        });
}

void TableDialog::list(const exchange::VectorDescription& description) {
    m_description = description;
    m_tables->clear();
    m_find->clear();
    for (std::size_t i = 0; i < description.layers.size(); ++i) {
        const exchange::LayerDescription& layer = description.layers[i];
        auto* item = new CountItem{m_tables};
        item->setText(0, text(layer.name));
        item->setToolTip(0, text(layer.name));
        item->setText(1, text(layer.geometry));
        item->setText(2, layer.crs.empty() ? tr("unknown") : text(layer.crs));
        item->setText(3, layer.features ? QString::number(qulonglong(*layer.features)) : QString{});
        item->setData(3, Qt::UserRole, qulonglong(layer.features.value_or(0)));
        item->setTextAlignment(3, Qt::AlignRight | Qt::AlignVCenter);
        item->setData(0, Qt::UserRole + 1, qulonglong(i));
        if (layer.remark.english() == "no right to read it") {
            item->setDisabled(true);
            item->setText(2, tr("no right to read it"));
            for (int column = 0; column < m_tables->columnCount(); ++column)
                item->setForeground(column, palette().color(QPalette::PlaceholderText));
        }
    }
    m_tables->sortByColumn(0, Qt::AscendingOrder);
    for (int i = 1; i < 4; ++i)
        m_tables->resizeColumnToContents(i);
    m_inside->setEnabled(!description.layers.empty());
    if (description.layers.empty())
        return refuse(m_doorRefusal, tr("There is no table with places in this database."));
    m_connect->setDefault(false);
    m_go->setDefault(true);
    for (int i = 0; i < m_tables->topLevelItemCount(); ++i)
        if (QTreeWidgetItem* item = m_tables->topLevelItem(i); !item->isDisabled()) {
            m_tables->setCurrentItem(item);
            break;
        }
    m_tables->setFocus(Qt::OtherFocusReason);
    chooseTable();
}

const exchange::LayerDescription* TableDialog::chosen() const {
    const QTreeWidgetItem* item = m_tables->currentItem();
    const auto index = item ? item->data(0, Qt::UserRole + 1).toULongLong() : 0;
    return item && !item->isDisabled() && index < m_description.layers.size() ? &m_description.layers[index] : nullptr;
}

void TableDialog::chooseTable() {
    const exchange::LayerDescription* layer = chosen();
    for (QComboBox* box : {m_label, m_number}) {
        box->clear();
        box->addItem(tr("none"));
        for (const std::string& field : layer ? layer->fields : std::vector<std::string>{})
            box->addItem(text(field));
    }
    if (layer) {
        m_label->setCurrentIndex(likelyLabel(layer->fields));
        m_number->setCurrentIndex(likelyNumber(layer->fields));
    }
    const bool silent = layer && layer->crs.empty();
    m_crs->setVisible(silent);
    m_form->labelForField(m_crs)->setVisible(silent);
    QString remark = layer ? session::translated(layer->remark) : QString{};
    if (silent)
        remark = (remark.isEmpty() ? QString{} : tr("Of this table, %1. ").arg(remark)) +
                 tr("Ask whoever keeps the table in which system its coordinates are, and name the system here.");
    else if (!remark.isEmpty())
        remark = tr("Of this table: %1.").arg(remark);
    m_remark->setText(remark);
    m_remark->setVisible(!remark.isEmpty());
    refuse(m_whereRefusal, {});
    check();
}

void TableDialog::check() {
    const exchange::LayerDescription* layer = chosen();
    bool ready = layer != nullptr;
    if (layer && layer->crs.empty()) {
        try {
            (void)geodesy::CrsTransform{m_crs->text().trimmed().toStdString()};
        } catch (const Fault& fault) {
            ready = false;
            m_crs->setToolTip(session::translatedWithoutPlace(fault));
        }
    }
    m_go->setEnabled(ready && !m_busy);
    m_connect->setEnabled(!m_busy);
    for (QLineEdit* edit : {m_address, m_user, m_password})
        edit->setEnabled(!m_busy);
    m_inside->setEnabled(!m_busy && !m_description.layers.empty());
}

void TableDialog::tryTable() {
    const auto whole = address();
    if (!whole || m_busy || !chosen())
        return;
    setBusy(true);
    const TableChoices wanted = choices();
    exchange::ReadRequest request;
    request.path = *whole;
    request.password = m_password->text().toStdString();
    request.layer = wanted.layer;
    request.crs = wanted.crs;
    request.where = wanted.where;
    const QPointer<TableDialog> self{this};
    m_jobs.start(
        tr("Asking %1").arg(text(*whole)),
        [reader = m_readerProgram.toStdString(), request](const Progress& progress) {
            exchange::ChildLimits limits;
            limits.time = kPatience;
            exchange::checkFilterApart(reader, request, limits, progress);
            return true;
        },
        [self](bool) {
            if (!self)
                return;
            self->setBusy(false);
            self->accept();
        },
        [self](const Fault& fault) {
            if (!self)
                return;
            self->setBusy(false);
            self->refuse(self->m_whereRefusal, session::translatedWithoutPlace(fault));
        });
}

TableChoices TableDialog::choices() const {
    TableChoices choices;
    choices.address = m_description.path;
    if (const exchange::LayerDescription* layer = chosen()) {
        choices.layer = layer->name;
        if (layer->crs.empty())
            choices.crs = m_crs->text().trimmed().toStdString();
    }
    if (m_label->currentIndex() > 0)
        choices.labelField = m_label->currentText().toStdString();
    if (m_number->currentIndex() > 0)
        choices.numberField = m_number->currentText().toStdString();
    choices.where = m_where->text().trimmed().toStdString();
    return choices;
}

QString TableDialog::password() const { return m_password->text(); }

} // namespace fencewright::desktop
