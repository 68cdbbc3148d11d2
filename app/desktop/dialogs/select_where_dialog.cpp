#include "desktop/dialogs/select_where_dialog.h"

#include "desktop/dialogs/dialog_rows.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// Of a choice whose first line is "either".
std::optional<bool> yesOrNo(const QComboBox& choice) {
    return choice.currentIndex() == 0 ? std::nullopt : std::optional{choice.currentIndex() == 1};
}

} // namespace

SelectWhereDialog::SelectWhereDialog(const QString& day, std::function<std::size_t(const ThingFilter&)> count,
                                     QWidget* parent)
    : QDialog{parent}, m_countOf{std::move(count)}, m_count{new QLabel{this}}, m_go{new QPushButton{tr("Choose these"),
                                                                                                    this}} {
    setObjectName("selectWhereDialog");
    setWindowTitle(tr("Choose where"));
    setMinimumWidth(440);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(12);
    form->setVerticalSpacing(8);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    const auto choice = [&](const char* name, const QString& words, const QStringList& lines) {
        auto* made = new QComboBox{this};
        made->setObjectName(name);
        made->setAccessibleName(words);
        made->addItems(lines);
        addRow(*form, words, made);
        connect(made, &QComboBox::currentIndexChanged, this, &SelectWhereDialog::recount);
        return made;
    };
    const auto typed = [&](const char* name, const QString& words, const QString& example) {
        auto* made = new QLineEdit{this};
        made->setObjectName(name);
        made->setAccessibleName(words);
        made->setPlaceholderText(example);
        addRow(*form, words, made);
        connect(made, &QLineEdit::textChanged, this, &SelectWhereDialog::recount);
        return made;
    };
    m_kind = choice(
        "whereKind", tr("What"),
        {tr("anything"), tr("fences"), tr("keep-ins"), tr("keep-outs"), tr("sites"), tr("homes"), tr("alternates")});
    m_name = typed("whereName", tr("Name has"), tr("any part of it"));
    m_basis = typed("whereBasis", tr("Basis has"), tr("citation, office, kind of site"));
    m_enabled = choice("whereEnabled", tr("Switch"), {tr("either"), tr("on"), tr("off")});
    m_period = choice("wherePeriod", tr("On %1").arg(day), {tr("either"), tr("in force"), tr("not in force")});
    m_findings = choice("whereFindings", tr("Findings"),
                        {tr("with or without"), tr("any"), tr("doubts and errors"), tr("errors")});
    column->addLayout(form);
    m_count->setObjectName("whereCount");
    m_count->setProperty("strong", true);
    column->addWidget(m_count);
    m_go->setObjectName("whereGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    m_name->setFocus();
    recount();
}

ThingFilter SelectWhereDialog::filter() const {
    ThingFilter filter;
    filter.kind = ThingFilter::Kind(m_kind->currentIndex());
    filter.name = m_name->text().trimmed();
    filter.basis = m_basis->text().trimmed();
    filter.enabled = yesOrNo(*m_enabled);
    filter.inPeriod = yesOrNo(*m_period);
    if (const int least = m_findings->currentIndex(); least > 0)
        filter.leastFinding = audit::Severity(least - 1);
    return filter;
}

void SelectWhereDialog::recount() {
    const auto count = m_countOf(filter());
    m_count->setText(count == 0   ? tr("Nothing is like that.")
                     : count == 1 ? tr("One is like that.")
                                  : tr("%1 are like that.").arg(count));
    m_go->setEnabled(count > 0);
}

} // namespace fencewright::desktop
