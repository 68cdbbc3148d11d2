#include "desktop/panels/tool_column.h"

#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kButton = 40;
constexpr int kGap = 6;
constexpr int kMargin = 8;
constexpr int kRowsAtLeast = 4;

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
    for (QAction* action : actions) {
        auto* button = new KeyedButton{appearance, this};
        button->setDefaultAction(action);
        button->setObjectName("tool_" + action->data().toString());
        button->setAccessibleName(plainWords(*action));
        button->setIconSize({24, 24});
        button->setFixedSize(kButton, kButton);
        button->setFocusPolicy(Qt::TabFocus);
        m_buttons.push_back(button);
    }
    arrange();
}

QSize ToolColumn::minimumSizeHint() const { return {width(), kRowsAtLeast * (kButton + kGap)}; }

void ToolColumn::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

void ToolColumn::arrange() {
    const int rows = std::max(kRowsAtLeast, (height() - 2 * kMargin + kGap) / (kButton + kGap));
    const int columns = (int(m_buttons.size()) + rows - 1) / rows;
    setFixedWidth(2 * kGap + columns * kButton + (columns - 1) * kGap);
    for (int i = 0; i < int(m_buttons.size()); ++i)
        m_buttons[std::size_t(i)]->move(kGap + i / rows * (kButton + kGap), kMargin + i % rows * (kButton + kGap));
}

} // namespace fencewright::desktop
