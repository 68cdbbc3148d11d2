#include "desktop/panels/form_grid.h"

#include "fault.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kLabelWidth = 96;

/// The wheel scrolls the form; it must not change a value that happens to lie under the pointer.
class WheelGuard : public QObject {
public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() != QEvent::Wheel)
            return QObject::eventFilter(watched, event);
        event->ignore();
        return true;
    }
};

/// Notes are taken when the focus leaves.
class NotesEdit : public QPlainTextEdit {
public:
    using QPlainTextEdit::QPlainTextEdit;
    std::function<void()> left;

protected:
    void focusOutEvent(QFocusEvent* event) override {
        QPlainTextEdit::focusOutEvent(event);
        if (left)
            left();
    }
};

/// Escape gives back what stood there. Both it and an accepted Enter leave the field: the next letter is a tool's key,
/// not a character in a number that is done.
class ValueEdit : public QLineEdit {
public:
    using QLineEdit::QLineEdit;
    std::function<void()> revert;
    std::function<void()> done;

protected:
    void keyPressEvent(QKeyEvent* event) override {
        const auto leave = done; // a copy: the form may be rebuilt meanwhile
        if (event->key() == Qt::Key_Escape && revert) {
            revert();
            leave();
            return;
        }
        QLineEdit::keyPressEvent(event);
        if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) && !property("refused").toBool())
            leave();
    }
};

} // namespace

struct FormGrid::Row {
    FormField field;
    QLabel* label = nullptr;
    ValueEdit* edit = nullptr;
    QComboBox* combo = nullptr;
    QCheckBox* check = nullptr;
    NotesEdit* notes = nullptr;
    QSlider* slider = nullptr;
    QLabel* statement = nullptr;
    QLabel* aside = nullptr;
    QLabel* refusal = nullptr;
    QString shown;
};

FormGrid::FormGrid(QWidget* parent) : QWidget{parent}, m_grid{new QGridLayout{this}} {
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(8);
    m_grid->setVerticalSpacing(6);
    m_grid->setColumnMinimumWidth(0, kLabelWidth);
    m_grid->setColumnStretch(1, 1);
    m_grid->setColumnStretch(2, 1);
}

FormGrid::~FormGrid() {
    for (const auto& row : m_rows) {
        if (row->edit)
            row->edit->disconnect(this);
        if (row->notes)
            row->notes->left = nullptr;
    }
}

void FormGrid::setFields(std::vector<FormField> fields) {
    // A field may be committing right now: its widget must outlive that, but say no more.
    for (const auto& row : m_rows) {
        if (row->edit)
            row->edit->revert = nullptr;
        if (row->notes)
            row->notes->left = nullptr;
    }
    while (QLayoutItem* item = m_grid->takeAt(0)) {
        if (QWidget* widget = item->widget()) {
            widget->disconnect();
            widget->setObjectName({});
            widget->hide();
            widget->deleteLater();
        }
        delete item;
    }
    m_rows.clear();
    for (FormField& field : fields)
        addRow(std::move(field));
    refresh();
}

void FormGrid::addRow(FormField field) {
    const std::size_t index = m_rows.size();
    m_rows.push_back(std::make_unique<Row>());
    Row& row = *m_rows.back();
    row.field = std::move(field);
    const FormField& f = row.field;
    const int line = int(index) * 2;
    const bool twoParts = f.kind == FormField::Kind::Text && !f.choices.isEmpty();
    const int span = f.aside || twoParts || f.kind == FormField::Kind::Command ||
                             (f.kind == FormField::Kind::Action && !f.choices.isEmpty())
                         ? 1
                         : 2;

    row.label = new QLabel{f.label, this};
    row.label->setProperty("quiet", true);
    row.refusal = new QLabel{this};
    row.refusal->setObjectName(f.name + "Refusal");
    row.refusal->setProperty("refusal", true);
    row.refusal->setWordWrap(true);
    row.refusal->setTextFormat(Qt::PlainText);
    row.refusal->hide();

    QWidget* editor = nullptr;
    switch (f.kind) {
    case FormField::Kind::Text:
    case FormField::Kind::Command:
        row.edit = new ValueEdit{this};
        row.edit->setPlaceholderText(f.placeholder);
        row.edit->done = [this] { emit left(); };
        row.edit->revert = [this, &row] {
            row.edit->setText(row.shown);
            showRefusal(row, {});
        };
        if (f.kind == FormField::Kind::Text) {
            connect(row.edit, &QLineEdit::editingFinished, this, [this, index, &row] {
                if (row.edit->text() != row.shown)
                    commit(index, row.edit->text());
            });
        } else {
            connect(row.edit, &QLineEdit::returnPressed, this,
                    [this, index, &row] { commit(index, row.edit->text()); });
            auto* button = new QPushButton{f.choices.value(0), this};
            button->setObjectName(f.name + "Button");
            connect(button, &QPushButton::clicked, this, [this, index, &row] { commit(index, row.edit->text()); });
            m_grid->addWidget(button, line, 2);
        }
        editor = row.edit;
        break;
    case FormField::Kind::Choice:
        row.combo = new QComboBox{this};
        row.combo->addItems(f.choices);
        connect(row.combo, &QComboBox::activated, this, [this, index](int choice) { chooseIn(index, choice); });
        editor = row.combo;
        break;
    case FormField::Kind::Check:
        row.check = new QCheckBox{f.label, this};
        connect(row.check, &QCheckBox::clicked, this,
                [this, index](bool on) { commit(index, on ? QStringLiteral("1") : QString{}); });
        editor = row.check;
        row.label->hide();
        break;
    case FormField::Kind::Notes:
        row.notes = new NotesEdit{this};
        row.notes->setTabChangesFocus(true);
        row.notes->setFixedHeight(56);
        row.notes->left = [this, index, &row] {
            if (row.notes->toPlainText() != row.shown)
                commit(index, row.notes->toPlainText());
        };
        editor = row.notes;
        break;
    case FormField::Kind::Slider:
        row.slider = new QSlider{Qt::Horizontal, this};
        row.slider->setRange(0, 100);
        row.slider->setPageStep(10);
        connect(row.slider, &QSlider::valueChanged, this, [this, index](int value) {
            if (!m_refreshing)
                commit(index, QString::number(value));
        });
        editor = row.slider;
        break;
    case FormField::Kind::Action:
        if (!f.choices.isEmpty()) {
            auto* button = new QPushButton{f.choices.first(), this};
            button->setObjectName(f.name + "Button");
            button->setAutoDefault(false);
            connect(button, &QPushButton::clicked, this, [this, index] { commit(index, {}); });
            m_grid->addWidget(button, line, 2, Qt::AlignTop);
        }
        [[fallthrough]];
    case FormField::Kind::Statement:
        row.statement = new QLabel{this};
        row.statement->setWordWrap(true);
        row.statement->setTextFormat(Qt::PlainText);
        row.statement->setTextInteractionFlags(Qt::TextSelectableByMouse);
        editor = row.statement;
        break;
    }
    editor->setObjectName(f.name);
    editor->setAccessibleName(f.label);
    row.label->setBuddy(editor);
    if (f.kind == FormField::Kind::Check) {
        m_grid->addWidget(editor, line, 0, 1, 3);
    } else {
        m_grid->addWidget(row.label, line, 0, f.kind == FormField::Kind::Notes ? Qt::AlignTop : Qt::AlignVCenter);
        m_grid->addWidget(editor, line, 1, 1, span);
    }
    if (twoParts) {
        row.combo = new QComboBox{this};
        row.combo->addItems(f.choices);
        row.combo->setObjectName(f.name + "From");
        row.combo->setAccessibleName(tr("%1, counted from").arg(f.label));
        connect(row.combo, &QComboBox::activated, this, [this, index](int choice) { chooseIn(index, choice); });
        m_grid->addWidget(row.combo, line, 2);
    } else if (f.aside) {
        row.aside = new QLabel{this};
        row.aside->setProperty("quiet", true);
        row.aside->setWordWrap(true);
        row.aside->setTextFormat(Qt::PlainText);
        m_grid->addWidget(row.aside, line, 2);
    }
    if (row.combo || row.slider) {
        QWidget* turned = row.combo ? static_cast<QWidget*>(row.combo) : row.slider;
        turned->setFocusPolicy(Qt::StrongFocus);
        turned->installEventFilter(new WheelGuard{turned});
    }
    if (row.combo) {
        row.combo->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        row.combo->setMinimumContentsLength(6);
    }
    m_grid->addWidget(row.refusal, line + 1, 1, 1, 2);
}

void FormGrid::commit(std::size_t index, const QString& text) {
    const auto write = m_rows[index]->field.write; // a copy: the row may be gone before it returns
    guarded(index, [&] { write(text); });
}

void FormGrid::chooseIn(std::size_t index, int choice) {
    const auto write = m_rows[index]->field.writeChoice;
    guarded(index, [&] { write(choice); });
}

void FormGrid::guarded(std::size_t index, const std::function<void()>& change) {
    // The change may rebuild the form, and this row with it.
    const QPointer<QLabel> refusal = m_rows[index]->refusal;
    Row* row = m_rows[index].get();
    const auto stillThere = [&] { return refusal && index < m_rows.size() && m_rows[index].get() == row; };
    try {
        change();
        if (stillThere()) {
            showRefusal(*row, {});
            if (row->edit)
                row->edit->setModified(false);
            row->shown = QChar{QChar::Null}; // whatever is read next is shown
            refresh(*row);
        }
    } catch (const Fault& fault) {
        if (stillThere())
            showRefusal(*row, session::translatedWithoutPlace(fault));
    }
}

void FormGrid::showRefusal(Row& row, const QString& words) {
    row.refusal->setText(words);
    row.refusal->setVisible(!words.isEmpty());
    if (row.edit) {
        row.edit->setProperty("refused", !words.isEmpty());
        row.edit->setAccessibleDescription(words);
        row.edit->style()->unpolish(row.edit);
        row.edit->style()->polish(row.edit);
    }
}

void FormGrid::refresh() {
    for (const auto& row : m_rows)
        refresh(*row);
}

void FormGrid::refresh(Row& row) {
    m_refreshing = true;
    QString value = row.field.read ? row.field.read() : QString{};
    const bool differs = value == differing();
    if (differs)
        value.clear();
    if (row.edit)
        row.edit->setPlaceholderText(differs ? tr("differ") : row.field.placeholder);
    if (row.edit && value != row.shown) {
        const bool typing = row.edit->hasFocus() && row.edit->isModified();
        row.shown = value;
        if (!typing) {
            row.edit->setText(value);
            row.edit->setCursorPosition(0);
            showRefusal(row, {});
        }
    }
    if (row.edit && row.field.refusal && !row.edit->isModified())
        showRefusal(row, row.field.refusal());
    if (row.check) {
        row.check->setTristate(differs);
        row.check->setCheckState(differs ? Qt::PartiallyChecked : value.isEmpty() ? Qt::Unchecked : Qt::Checked);
    }
    if (row.notes && value != row.shown) {
        row.shown = value;
        if (!row.notes->hasFocus() || !row.notes->document()->isModified())
            row.notes->setPlainText(value);
    }
    if (row.slider)
        row.slider->setValue(value.toInt());
    if (row.statement)
        row.statement->setText(differs ? tr("differ") : value);
    if (row.combo && row.field.readChoice)
        row.combo->setCurrentIndex(row.field.readChoice());
    if (row.aside) {
        const QString aside = row.field.aside();
        row.aside->setText(aside == differing() ? QString{} : aside);
    }
    m_refreshing = false;
}

void FormGrid::focusFirst() {
    for (const auto& row : m_rows)
        if (row->edit) {
            row->edit->setFocus(Qt::OtherFocusReason);
            row->edit->selectAll();
            return;
        }
}

} // namespace fencewright::desktop
