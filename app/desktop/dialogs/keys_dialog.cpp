#include "desktop/dialogs/keys_dialog.h"

#include "desktop/dialogs/key_field.h"
#include "desktop/key_book.h"

#include <QtWidgets>

namespace fencewright::desktop {

class KeysDialog::Model : public QAbstractTableModel {
public:
    Model(const KeyBook& book, QObject* parent) : QAbstractTableModel{parent}, m_book{book} {}

    const KeyedCommand& at(int row) const { return m_book.commands()[std::size_t(row)]; }
    void restate() { emit dataChanged(index(0, 0), index(rowCount({}) - 1, 2)); }

    int rowCount(const QModelIndex& parent) const override {
        return parent.isValid() ? 0 : int(m_book.commands().size());
    }
    int columnCount(const QModelIndex&) const override { return 3; }
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override {
        if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
            return {};
        return section == 0   ? KeysDialog::tr("What it does")
               : section == 1 ? KeysDialog::tr("Key")
                              : KeysDialog::tr("Where");
    }
    QVariant data(const QModelIndex& index, int role) const override {
        const KeyedCommand& command = at(index.row());
        if (role == Qt::DisplayRole)
            return index.column() == 0 ? command.words : index.column() == 1 ? command.keyWords() : command.place;
        if (role == Qt::ToolTipRole)
            return command.action ? (command.isAsGiven() ? QString{} : KeysDialog::tr("Changed by you")) : command.why;
        if (role == Qt::SizeHintRole && index.column() > 0) {
            constexpr int gap = 32; // to the next column
            const QString words = data(index, Qt::DisplayRole).toString();
            return QSize{QFontMetrics{QGuiApplication::font()}.horizontalAdvance(words) + gap, 26};
        }
        if (role == Qt::FontRole && index.column() == 1 && !command.isAsGiven()) {
            QFont font;
            font.setPixelSize(13);
            font.setWeight(QFont::Bold);
            return font;
        }
        if (role == Qt::ForegroundRole && !command.action)
            return QGuiApplication::palette().color(QPalette::PlaceholderText);
        return {};
    }

private:
    const KeyBook& m_book;
};

/// A row stays when each typed word is in one of its columns.
class KeysDialog::Filter : public QSortFilterProxyModel {
public:
    using QSortFilterProxyModel::QSortFilterProxyModel;

    void look(const QString& typed) {
        m_words = typed.split(' ', Qt::SkipEmptyParts);
        invalidateFilter();
    }

protected:
    bool filterAcceptsRow(int row, const QModelIndex& parent) const override {
        return std::all_of(m_words.begin(), m_words.end(), [&](const QString& word) {
            for (int column = 0; column < 3; ++column)
                if (sourceModel()->index(row, column, parent).data().toString().contains(word, Qt::CaseInsensitive))
                    return true;
            return false;
        });
    }

private:
    QStringList m_words;
};

KeysDialog::KeysDialog(KeyBook& book, QWidget* parent)
    : QDialog{parent}, m_book{book}, m_model{new Model{book, this}}, m_filter{new Filter{this}},
      m_search{new QLineEdit{this}}, m_table{new QTableView{this}}, m_what{new QLabel{this}},
      m_field{new KeyField{this}}, m_none{new QPushButton{tr("No key"), this}}, m_back{new QPushButton{tr("As given"),
                                                                                                       this}},
      m_allBack{new QPushButton{tr("All as given"), this}}, m_clash{new QLabel{this}},
      m_take{new QPushButton{tr("Take it from there"), this}}, m_leave{new QPushButton{tr("Leave it"), this}} {
    setObjectName("keysDialog");
    setWindowTitle(tr("Keys"));
    resize(680, 620);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 16, 24, 16);
    column->setSpacing(8);
    m_search->setObjectName("keysSearch");
    m_search->setPlaceholderText(tr("Look for a command, a menu or a key"));
    m_search->setAccessibleName(tr("Look through the keys"));
    m_search->setClearButtonEnabled(true);
    column->addWidget(m_search);

    m_filter->setSourceModel(m_model);
    m_table->setObjectName("keysTable");
    m_table->setAccessibleName(tr("Keys"));
    m_table->setModel(m_filter);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setTabKeyNavigation(false);
    m_table->setShowGrid(false);
    m_table->setWordWrap(false);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setDefaultSectionSize(26);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(2, QHeaderView::ResizeToContents);
    column->addWidget(m_table, 1);

    m_what->setObjectName("keysWhat");
    m_what->setProperty("strong", true);
    m_what->setTextFormat(Qt::PlainText);
    m_what->setBuddy(m_field);
    column->addWidget(m_what);
    m_field->setObjectName("keysField");
    m_field->setAccessibleName(tr("The key of the marked command"));
    m_field->setAccessibleDescription(tr("Press the new key. Tab leaves this field."));
    m_none->setObjectName("keysNone");
    m_back->setObjectName("keysBack");
    m_allBack->setObjectName("keysAllBack");
    auto* change = new QHBoxLayout;
    change->setSpacing(8);
    change->addWidget(m_field, 1);
    change->addWidget(m_none);
    change->addWidget(m_back);
    column->addLayout(change);

    m_clash->setObjectName("keysClash");
    m_clash->setProperty("refusal", true);
    m_clash->setTextFormat(Qt::PlainText);
    m_clash->setWordWrap(true);
    m_take->setObjectName("keysTake");
    m_leave->setObjectName("keysLeave");
    auto* clash = new QHBoxLayout;
    clash->setSpacing(8);
    clash->addWidget(m_clash, 1);
    clash->addWidget(m_leave);
    clash->addWidget(m_take);
    auto* clashRow = new QWidget{this};
    clash->setContentsMargins(0, 0, 0, 0);
    clashRow->setLayout(clash);
    clashRow->setMinimumHeight(34);
    column->addWidget(clashRow);

    auto* close = new QPushButton{tr("Close"), this};
    close->setObjectName("keysClose");
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_allBack);
    buttons->addStretch(1);
    buttons->addWidget(close);
    column->addLayout(buttons);
    for (QPushButton* button : {m_none, m_back, m_allBack, m_take, m_leave, close})
        button->setAutoDefault(false);

    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    connect(m_search, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_filter->look(typed);
        if (!m_table->currentIndex().isValid() && m_filter->rowCount() > 0)
            m_table->selectRow(0);
    });
    connect(m_search, &QLineEdit::returnPressed, this, [this] { m_table->setFocus(Qt::TabFocusReason); });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &KeysDialog::showChosen);
    connect(m_table, &QTableView::activated, this, [this] { m_field->setFocus(Qt::TabFocusReason); });
    connect(m_field, &KeyField::pressed, this, &KeysDialog::consider);
    connect(m_none, &QPushButton::clicked, this, [this] { m_book.assign(chosen()->action, {}); });
    connect(m_back, &QPushButton::clicked, this, [this] {
        m_askedBack = true;
        for (const QKeySequence& key : chosen()->given)
            if (!m_book.clashes(key, chosen()->action).empty())
                return consider(key);
        commit();
    });
    connect(m_allBack, &QPushButton::clicked, this, [this] { m_book.giveAllBack(); });
    connect(m_take, &QPushButton::clicked, this, &KeysDialog::commit);
    connect(m_leave, &QPushButton::clicked, this, &KeysDialog::showChosen);
    connect(&book, &KeyBook::changed, this, [this] {
        m_model->restate();
        showChosen();
    });
    m_table->selectRow(0);
    showChosen();
    m_search->setFocus(Qt::OtherFocusReason);
}

const KeyedCommand* KeysDialog::chosen() const {
    const QModelIndex at = m_filter->mapToSource(m_table->currentIndex());
    return at.isValid() ? &m_model->at(at.row()) : nullptr;
}

void KeysDialog::showChosen() {
    m_asked = {};
    m_askedBack = false;
    m_clash->clear();
    m_take->hide();
    m_leave->hide();
    const KeyedCommand* command = chosen();
    const bool changeable = command && command->action;
    m_what->setText(command ? command->words : tr("Nothing of that name"));
    m_field->setText(command ? command->keyWords() : QString{});
    m_field->setEnabled(changeable);
    m_none->setEnabled(changeable && !command->action->shortcuts().isEmpty());
    m_back->setEnabled(changeable && !command->isAsGiven());
    if (command && !changeable)
        m_clash->setText(command->why);
    m_allBack->setEnabled(std::any_of(m_book.commands().begin(), m_book.commands().end(),
                                      [](const KeyedCommand& one) { return !one.isAsGiven(); }));
}

void KeysDialog::consider(const QKeySequence& key) {
    m_asked = key;
    const auto others = m_book.clashes(key, chosen()->action);
    const QString shown = key.toString(QKeySequence::NativeText);
    m_take->setVisible(!others.empty());
    m_leave->setVisible(!others.empty());
    if (others.empty())
        return commit();
    QStringList names;
    for (const KeyedCommand* other : others) {
        if (!other->action) {
            m_take->hide();
            m_clash->setText(
                tr("%1 stays with “%2” (%3). Press another.").arg(shown, other->words, other->place.toLower()));
            return;
        }
        names << tr("“%1”").arg(other->words);
    }
    m_clash->setText(tr("%1 is the key of %2.").arg(shown, names.join(tr(" and "))));
    // A person at the keys: the next Enter decides.
    m_take->setFocus(Qt::TabFocusReason);
}

void KeysDialog::commit() {
    QAction* action = chosen()->action;
    if (m_askedBack)
        m_book.giveBack(action);
    else
        m_book.assign(action, m_asked);
}

} // namespace fencewright::desktop
