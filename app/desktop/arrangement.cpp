#include "desktop/arrangement.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kWidestColumn = 600;
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

void Arrangement::keepColumns(const char* name, QHeaderView* header, QList<int> columns) {
    m_columns.push_back({QString::fromLatin1(name), header, std::move(columns)});
    connect(header, &QHeaderView::sectionResized, this, [this, at = m_columns.size() - 1] {
        const Columns& one = m_columns[at];
        if (one.header->sectionResizeMode(one.columns.front()) != QHeaderView::Interactive ||
            !(QGuiApplication::mouseButtons() & Qt::LeftButton))
            return;
        QByteArrayList widths;
        for (const int column : one.columns)
            widths << QByteArray::number(one.header->sectionSize(column));
        m_settings.setArrangement(one.name, widths.join(' '));
    });
}

/// A hand comes to the header: from now on the columns are as wide as it makes them.
void Arrangement::dragColumns(const QObject* viewport) {
    for (const Columns& one : m_columns)
        if (one.header && one.header->viewport() == viewport)
            for (const int column : one.columns) {
                const int width = one.header->sectionSize(column);
                one.header->setSectionResizeMode(column, QHeaderView::Interactive);
                one.header->resizeSection(column, width);
            }
}

void Arrangement::restoreColumns(const Columns& one) {
    const QByteArrayList widths = m_settings.arrangement(one.name).split(' ');
    const bool kept = widths.size() == one.columns.size();
    for (qsizetype i = 0; i < one.columns.size(); ++i) {
        one.header->setSectionResizeMode(one.columns[i],
                                         kept ? QHeaderView::Interactive : QHeaderView::ResizeToContents);
        if (kept)
            one.header->resizeSection(one.columns[i],
                                      std::clamp(widths[i].toInt(), one.header->minimumSectionSize(), kWidestColumn));
    }
}

void Arrangement::restore() {
    for (const Columns& one : m_columns)
        restoreColumns(one);
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
    for (const Columns& one : m_columns)
        restoreColumns(one);
}

bool Arrangement::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::MouseButtonPress)
        dragColumns(watched);
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
