#include "desktop/dialogs/key_field.h"

#include <QKeyEvent>

namespace fencewright::desktop {
namespace {

bool isModifier(int key) {
    return key == Qt::Key_Shift || key == Qt::Key_Control || key == Qt::Key_Alt || key == Qt::Key_Meta ||
           key == Qt::Key_AltGr || key == Qt::Key_Super_L || key == Qt::Key_Super_R || key == Qt::Key_CapsLock ||
           key == Qt::Key_NumLock || key == Qt::Key_unknown || key == 0;
}

bool leaves(const QKeyEvent& event) {
    return event.key() == Qt::Key_Tab || event.key() == Qt::Key_Backtab ||
           (event.key() == Qt::Key_Escape && event.modifiers() == Qt::NoModifier);
}

} // namespace

KeyField::KeyField(QWidget* parent) : QLineEdit{parent} {
    setReadOnly(true);
    setContextMenuPolicy(Qt::NoContextMenu);
    setAttribute(Qt::WA_InputMethodEnabled, false);
    setPlaceholderText(tr("Press the new key"));
}

void KeyField::show(const QKeySequence& key) { setText(key.toString(QKeySequence::NativeText)); }

bool KeyField::event(QEvent* event) {
    // Before the keys of the window, and before the dialog's Enter.
    if (event->type() == QEvent::ShortcutOverride && !leaves(*static_cast<QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    return QLineEdit::event(event);
}

void KeyField::keyPressEvent(QKeyEvent* event) {
    if (leaves(*event)) {
        event->ignore();
        return;
    }
    event->accept();
    if (isModifier(event->key()))
        return;
    Qt::KeyboardModifiers modifiers = event->modifiers() & ~Qt::KeypadModifier;
    // "?" is pressed with Shift on one keyboard and without on another: the character counts.
    const QString text = event->text();
    if (text.size() == 1 && text[0].isPrint() && !text[0].isLetter() && !text[0].isSpace())
        modifiers &= ~Qt::ShiftModifier;
    const QKeySequence key{QKeyCombination{modifiers, Qt::Key(event->key())}};
    show(key);
    emit pressed(key);
}

} // namespace fencewright::desktop
