#include "desktop/arrangement.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr char kGivenSize[] = "size as it came";

/// The program's own dialogs; those for files and questions size themselves.
QDialog* ownDialog(QObject* watched) {
    auto* dialog = qobject_cast<QDialog*>(watched);
    const bool own = dialog && !dialog->objectName().isEmpty() && !qobject_cast<QFileDialog*>(dialog) &&
                     !qobject_cast<QMessageBox*>(dialog);
    return own ? dialog : nullptr;
}

QSize sizeFrom(const QByteArray& written) {
    const QList<QByteArray> sides = written.split('x');
    return sides.size() == 2 ? QSize{sides[0].toInt(), sides[1].toInt()} : QSize{};
}

} // namespace

void fitOnScreen(QWidget& window) {
    const QScreen* screen = QGuiApplication::screenAt(window.frameGeometry().center());
    if (!screen)
        screen = window.screen();
    const QRect room = screen->availableGeometry();
    const QSize frame = window.frameGeometry().size() - window.size();
    const QSize size = window.size().boundedTo(room.size() - frame);
    // A window that may not be smaller is better cut than refused.
    window.setMinimumSize(window.minimumSize().boundedTo(size));
    window.resize(size);
    const QRect now{window.pos(), size + frame};
    const int x = std::clamp(now.x(), room.left(), std::max(room.left(), room.right() + 1 - now.width()));
    const int y = std::clamp(now.y(), room.top(), std::max(room.top(), room.bottom() + 1 - now.height()));
    window.move(x, y);
}

Arrangement::Arrangement(session::Settings& settings, QObject* parent) : QObject{parent}, m_settings{settings} {
    qApp->installEventFilter(this);
}

void Arrangement::keepShown(QAction* action, QList<QWidget*> parts) {
    m_shown.push_back({action, std::move(parts)});
    connect(action, &QAction::toggled, this, [this, at = m_shown.size() - 1](bool shown) {
        for (QWidget* part : m_shown[at].parts)
            part->setVisible(shown);
        m_settings.setArrangement(m_shown[at].action->objectName(), shown ? "shown" : "hidden");
    });
}

void Arrangement::keepSplit(const char* name, QSplitter* splitter, std::function<void()> given) {
    m_splits.push_back({QString::fromLatin1(name), splitter, std::move(given), false});
    connect(splitter, &QSplitter::splitterMoved, this, [this, at = m_splits.size() - 1] {
        m_splits[at].moved = true;
        m_settings.setArrangement(m_splits[at].name, m_splits[at].splitter->saveState());
    });
}

bool Arrangement::isMoved(const QSplitter* splitter) const {
    return std::any_of(m_splits.begin(), m_splits.end(),
                       [&](const Split& one) { return one.splitter == splitter && one.moved; });
}

void Arrangement::restore() {
    for (const Shown& one : m_shown)
        if (m_settings.arrangement(one.action->objectName()) == "hidden")
            one.action->setChecked(false);
    for (Split& one : m_splits) {
        const QByteArray state = m_settings.arrangement(one.name);
        const int handle = one.splitter->handleWidth();
        one.moved = !state.isEmpty() && one.splitter->restoreState(state);
        // The state holds more than the sizes.
        one.splitter->setHandleWidth(handle);
        one.splitter->setChildrenCollapsible(false);
    }
}

void Arrangement::giveBack() {
    m_settings.forgetArrangement();
    for (const Shown& one : m_shown)
        one.action->setChecked(true);
    m_settings.forgetArrangement(); // showing them was written down
    for (Split& one : m_splits) {
        one.moved = false;
        one.given();
    }
}

bool Arrangement::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Show && !event->spontaneous()) {
        if (QDialog* dialog = ownDialog(watched)) {
            const QSize kept = sizeFrom(m_settings.arrangement(dialog->objectName()));
            if (kept.isValid() && !kept.isEmpty())
                dialog->resize(
                    kept.expandedTo(dialog->minimumSizeHint()).boundedTo(dialog->screen()->availableGeometry().size()));
            dialog->setProperty(kGivenSize, dialog->size());
        }
    } else if (event->type() == QEvent::Hide && !event->spontaneous()) {
        if (QDialog* dialog = ownDialog(watched))
            if (const QSize given = dialog->property(kGivenSize).toSize(); given.isValid() && given != dialog->size())
                m_settings.setArrangement(
                    dialog->objectName(),
                    QStringLiteral("%1x%2").arg(dialog->width()).arg(dialog->height()).toLatin1());
    }
    return QObject::eventFilter(watched, event);
}

} // namespace fencewright::desktop
