#include "desktop/panels/start_page.h"

#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// A wide button: icon, what it does, and in quiet letters why.
class StepButton : public QPushButton {
public:
    StepButton(QAction* action, Appearance& appearance, QWidget* parent)
        : QPushButton{parent}, m_action{action}, m_appearance{appearance} {
        setProperty("step", true);
        setObjectName("step_" + action->objectName());
        setAccessibleName(words());
        setAccessibleDescription(action->whatsThis());
        setMinimumSize(440, 60);
        setCursor(Qt::PointingHandCursor);
        setAutoDefault(false);
        connect(this, &QPushButton::clicked, action, &QAction::trigger);
        connect(&appearance, &Appearance::changed, this, qOverload<>(&QWidget::update));
    }

protected:
    void paintEvent(QPaintEvent* event) override {
        QPushButton::paintEvent(event);
        const Palette& palette = m_appearance.palette();
        QPainter painter{this};
        m_appearance.icon(m_action->property("icon path").toString())
            .paint(&painter, QRect{14, (height() - 24) / 2, 24, 24});
        QFont font = this->font();
        font.setPixelSize(kPlainType);
        font.setWeight(QFont::DemiBold);
        painter.setFont(font);
        painter.setPen(palette.text);
        painter.drawText(QRect{54, 11, width() - 66, 20}, Qt::AlignVCenter | Qt::AlignLeft, words());
        font.setPixelSize(kSmallType);
        font.setWeight(QFont::Normal);
        painter.setFont(font);
        painter.setPen(palette.quietText);
        painter.drawText(QRect{54, 30, width() - 66, 20}, Qt::AlignVCenter | Qt::AlignLeft, m_action->whatsThis());
    }

private:
    QString words() const {
        const QString own = m_action->property("step words").toString();
        return own.isEmpty() ? plainWords(*m_action) : own;
    }

    QAction* m_action;
    Appearance& m_appearance;
};

} // namespace

StartPage::StartPage(const std::vector<QAction*>& steps, QAction* sample, QAction* open, Appearance& appearance,
                     QWidget* parent)
    : QFrame{parent} {
    setObjectName("startPage");
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(8);
    auto* title = new QLabel{tr("An empty fence set"), this};
    title->setProperty("heading", true);
    auto* words =
        new QLabel{tr("Three ways to begin. The map takes the place of this page with the first of them."), this};
    words->setProperty("quiet", true);
    words->setWordWrap(true);
    column->addWidget(title);
    column->addWidget(words);
    column->addSpacing(4);
    for (QAction* step : steps)
        column->addWidget(new StepButton{step, appearance, this});
    auto* row = new QHBoxLayout;
    for (QAction* action : {sample, open}) {
        auto* link = new QPushButton{action == sample ? tr("Open the sample") : tr("Open a document…"), this};
        link->setObjectName("link_" + action->objectName());
        link->setProperty("link", true);
        link->setAutoDefault(false);
        link->setCursor(Qt::PointingHandCursor);
        connect(link, &QPushButton::clicked, action, &QAction::trigger);
        row->addWidget(link);
        row->addSpacing(8);
    }
    row->addStretch(1);
    column->addSpacing(4);
    column->addLayout(row);
}

} // namespace fencewright::desktop
