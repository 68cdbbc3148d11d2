#include "desktop/dialogs/features_dialog.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kFeature = Qt::UserRole; // of the first column: which feature a row is about
constexpr int kColumnWidth = 200;

QString text(std::string_view words) { return QString::fromUtf8(words.data(), qsizetype(words.size())); }

} // namespace

FeaturesDialog::FeaturesDialog(const QString& title, const QString& heading, std::vector<FoundFeature> features,
                               Opened opened, QWidget* parent)
    : QDialog{parent}, m_heading{heading}, m_features{std::move(features)}, m_tree{new QTreeWidget{this}} {
    setObjectName("featuresDialog");
    setWindowTitle(title);
    resize(480, 520);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 16, 24, 16);
    column->setSpacing(12);
    auto* head = new QLabel{heading, this};
    head->setObjectName("featuresHeading");
    head->setProperty("heading", true);
    head->setTextFormat(Qt::PlainText);
    head->setTextInteractionFlags(Qt::TextSelectableByMouse);
    head->setWordWrap(true);
    column->addWidget(head);
    m_tree->setObjectName("featuresTree");
    m_tree->setAccessibleName(title);
    m_tree->setHeaderLabels({tr("Column"), tr("Value")});
    m_tree->setColumnWidth(0, kColumnWidth);
    m_tree->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_tree->setUniformRowHeights(true);
    column->addWidget(m_tree, 1);
    for (std::size_t i = 0; i < m_features.size(); ++i) {
        auto* item = new QTreeWidgetItem{m_tree, {m_features[i].name, m_features[i].layerName}};
        item->setData(0, kFeature, qulonglong(i));
        item->setChildIndicatorPolicy(QTreeWidgetItem::ShowIndicator);
        QFont bold = m_tree->font();
        bold.setWeight(QFont::DemiBold);
        item->setFont(0, bold);
        if (opened == Opened::All)
            item->setExpanded(true);
    }
    auto* buttons = new QHBoxLayout;
    auto* copy = new QPushButton{tr("Copy"), this};
    copy->setObjectName("featuresCopy");
    auto* look = new QPushButton{tr("Show on the map"), this};
    look->setObjectName("featuresShow");
    auto* close = new QPushButton{tr("Close"), this};
    for (QPushButton* button : {copy, look, close})
        button->setAutoDefault(false);
    buttons->addWidget(copy);
    buttons->addWidget(look);
    buttons->addStretch(1);
    buttons->addWidget(close);
    column->addLayout(buttons);
    connect(m_tree, &QTreeWidget::itemExpanded, this, &FeaturesDialog::fill);
    connect(m_tree, &QTreeWidget::itemActivated, this, &FeaturesDialog::showOnMap);
    connect(look, &QPushButton::clicked, this, [this] { showOnMap(m_tree->currentItem()); });
    connect(copy, &QPushButton::clicked, this, [this] { QGuiApplication::clipboard()->setText(copied()); });
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    auto* key = new QShortcut{QKeySequence::Copy, m_tree};
    key->setContext(Qt::WidgetWithChildrenShortcut);
    connect(key, &QShortcut::activated, copy, &QPushButton::click);
    if (opened == Opened::All)
        for (int i = 0; i < m_tree->topLevelItemCount(); ++i)
            fill(m_tree->topLevelItem(i));
    m_tree->setCurrentItem(m_tree->topLevelItem(0), 0, QItemSelectionModel::NoUpdate);
    m_tree->setFocus(Qt::OtherFocusReason);
}

/// Only when it is opened: a search may find a thousand.
void FeaturesDialog::fill(QTreeWidgetItem* item) {
    if (item->parent() || item->childCount() > 0)
        return;
    const FoundFeature& one = m_features[item->data(0, kFeature).toULongLong()];
    const exchange::Feature feature = one.layer->feature(one.feature);
    const auto& fields = one.layer->about().fields;
    for (std::size_t i = 0; i < fields.size() && i < feature.attributes.size(); ++i) {
        auto* row = new QTreeWidgetItem{item, {text(fields[i]), text(feature.attributes[i])}};
        row->setData(0, kFeature, item->data(0, kFeature));
        row->setToolTip(1, text(feature.attributes[i]).left(2000).toHtmlEscaped());
    }
}

void FeaturesDialog::showOnMap(const QTreeWidgetItem* item) {
    if (!item)
        return;
    const FoundFeature& one = m_features[item->data(0, kFeature).toULongLong()];
    if (const geometry::Box box = one.layer->box(one.feature); !box.empty())
        emit showRequested(box);
}

QString FeaturesDialog::copied() const {
    QString lines;
    const auto add = [&](const QTreeWidgetItem& row) { lines += row.text(0) + '\t' + row.text(1).simplified() + '\n'; };
    const auto chosen = m_tree->selectedItems();
    for (int i = 0; i < m_tree->topLevelItemCount(); ++i) {
        const QTreeWidgetItem* item = m_tree->topLevelItem(i);
        if (chosen.isEmpty() || item->isSelected())
            add(*item);
        for (int k = 0; k < item->childCount(); ++k)
            if (chosen.isEmpty() || item->isSelected() || item->child(k)->isSelected())
                add(*item->child(k));
    }
    return lines;
}

} // namespace fencewright::desktop
