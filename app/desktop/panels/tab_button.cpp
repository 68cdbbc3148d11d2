#include "desktop/panels/tab_button.h"

#include "desktop/theme.h"

#include <QtWidgets>

namespace fencewright::desktop {

QPushButton* tabButton(const char* name, const QString& words, QWidget* parent) {
    auto* tab = new QPushButton{words, parent};
    tab->setObjectName(name);
    tab->setProperty("tab", true);
    tab->setCheckable(true);
    tab->setAutoDefault(false);
    tab->setCursor(Qt::PointingHandCursor);
    QFont chosen = tab->font();
    chosen.setPixelSize(kPlainType);
    chosen.setWeight(QFont::Bold);
    tab->setMinimumWidth(QFontMetrics{chosen}.horizontalAdvance(words) + 8);
    return tab;
}

} // namespace fencewright::desktop
