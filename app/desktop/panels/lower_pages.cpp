#include "desktop/panels/lower_pages.h"

#include "desktop/panels/edits_panel.h"
#include "desktop/panels/findings_panel.h"
#include "desktop/panels/tab_button.h"

#include <QtWidgets>

namespace fencewright::desktop {

LowerPages::LowerPages(FindingsPanel* findings, EditsPanel* edits, QWidget* parent)
    : QWidget{parent}, m_pages{new QStackedWidget{this}}, m_findingsTab{tabButton("tabFindings", tr("Findings"), this)},
      m_editsTab{tabButton("tabEdits", tr("Edits"), this)} {
    setObjectName("lowerPages");
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 4, 0, 0);
    column->setSpacing(0);
    auto* heading = new QHBoxLayout;
    heading->setContentsMargins(16, 0, 16, 0);
    heading->setSpacing(16);
    heading->addWidget(m_findingsTab);
    heading->addWidget(m_editsTab);
    heading->addStretch(1);
    heading->addWidget(findings->count());
    column->addLayout(heading);
    column->addWidget(m_pages, 1);
    m_pages->addWidget(findings);
    m_pages->addWidget(edits);
    auto* group = new QButtonGroup{this};
    group->addButton(m_findingsTab);
    group->addButton(m_editsTab);
    m_findingsTab->setChecked(true);
    connect(m_findingsTab, &QPushButton::clicked, this, &LowerPages::showFindings);
    connect(m_editsTab, &QPushButton::clicked, this, &LowerPages::showEdits);
}

void LowerPages::showFindings() {
    m_findingsTab->setChecked(true);
    m_pages->setCurrentIndex(0);
}

void LowerPages::showEdits() {
    m_editsTab->setChecked(true);
    m_pages->setCurrentIndex(1);
}

} // namespace fencewright::desktop
