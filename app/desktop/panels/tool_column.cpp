#include "desktop/panels/tool_column.h"

#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// A button with the tool's key small in its corner.
class KeyedButton : public QToolButton {
public:
    KeyedButton(Appearance& appearance, QWidget* parent) : QToolButton{parent}, m_appearance{appearance} {}

protected:
    void paintEvent(QPaintEvent* event) override {
        QToolButton::paintEvent(event);
        QPainter painter{this};
        QFont small = font();
        small.setPixelSize(9);
        painter.setFont(small);
        painter.setPen(m_appearance.palette().quietText);
        painter.drawText(rect().adjusted(0, 0, -4, -2), Qt::AlignRight | Qt::AlignBottom,
                         defaultAction() ? defaultAction()->shortcut().toString() : QString{});
    }

private:
    Appearance& m_appearance;
};

} // namespace

ToolColumn::ToolColumn(const std::vector<QAction*>& actions, Appearance& appearance, QWidget* parent)
    : QWidget{parent} {
    setObjectName("toolColumn");
    setAttribute(Qt::WA_StyledBackground);
    setFixedWidth(52);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(6, 8, 6, 8);
    column->setSpacing(6);
    for (QAction* action : actions) {
        auto* button = new KeyedButton{appearance, this};
        button->setDefaultAction(action);
        button->setObjectName("tool_" + action->data().toString());
        button->setAccessibleName(plainWords(*action));
        button->setIconSize({24, 24});
        button->setFixedSize(40, 40);
        button->setFocusPolicy(Qt::TabFocus);
        column->addWidget(button);
    }
    column->addStretch(1);
}

} // namespace fencewright::desktop
