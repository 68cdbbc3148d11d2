#include "desktop/theme.h"

#include "desktop/line_icon.h"

#include <QApplication>

// Resources of a static library are linked only when asked for by name, outside of any namespace.
static void loadResources() { Q_INIT_RESOURCE(resources); }

namespace fencewright::desktop {
namespace {

QColor mixed(const QColor& a, const QColor& b, double share) {
    const auto channel = [share](int x, int y) { return int(x + (y - x) * share); };
    return {channel(a.red(), b.red()), channel(a.green(), b.green()), channel(a.blue(), b.blue())};
}

QPalette widgetPalette(const Palette& p) {
    QPalette palette;
    palette.setColor(QPalette::Window, p.ground);
    palette.setColor(QPalette::WindowText, p.text);
    palette.setColor(QPalette::Base, p.field);
    palette.setColor(QPalette::AlternateBase, p.panel);
    palette.setColor(QPalette::Text, p.text);
    palette.setColor(QPalette::PlaceholderText, p.quietText);
    palette.setColor(QPalette::Button, p.panel);
    palette.setColor(QPalette::ButtonText, p.text);
    palette.setColor(QPalette::BrightText, p.error);
    palette.setColor(QPalette::Highlight, p.accent);
    palette.setColor(QPalette::HighlightedText, p.dark ? p.ground : QColor{Qt::white});
    palette.setColor(QPalette::ToolTipBase, p.panel);
    palette.setColor(QPalette::ToolTipText, p.text);
    palette.setColor(QPalette::Link, p.accent);
    palette.setColor(QPalette::LinkVisited, p.accent);
    palette.setColor(QPalette::Light, p.panel);
    palette.setColor(QPalette::Midlight, p.hairline);
    palette.setColor(QPalette::Mid, p.hairline);
    palette.setColor(QPalette::Dark, p.quietText);
    palette.setColor(QPalette::Shadow, p.hairline);
    const QColor faint = mixed(p.quietText, p.ground, 0.45);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, faint);
    return palette;
}

QString styleSheet(const Palette& p) {
    QString sheet = QStringLiteral(R"(
* { font-size: 13px; }
#topBar, #toolColumn, #calendarStrip, #statusLine, #rightColumn { background: %panel; }
#statusLine, #mapArea { background: %ground; }
#statusLine QLabel { font-size: 12px; }
#rightColumn QScrollArea, #rightColumn QScrollArea > QWidget > QWidget, QAbstractScrollArea { background: %panel; }
QLabel[quiet="true"] { color: %quiet; }
QLabel[small="true"] { font-size: 12px; }
QLabel[heading="true"] { font-size: 15px; font-weight: 600; }
QLabel[strong="true"] { font-weight: 600; }
QLabel[refusal="true"] { color: %error; font-size: 12px; }
QFrame[hairline="true"] { background: %line; border: none; }
QMenuBar { background: transparent; border: none; }
QMenuBar::item { padding: 6px 9px; background: transparent; border-radius: 4px; color: %text; }
QMenuBar::item:selected, QMenuBar::item:pressed { background: %selection; }
QMenu { background: %panel; border: 1px solid %line; padding: 4px 0; color: %text; }
QMenu::item { padding: 5px 28px 5px 24px; }
QMenu::item:selected { background: %selection; }
QMenu::item:disabled { color: %faint; }
QMenu::separator { height: 1px; background: %line; margin: 4px 0; }
QMenu::indicator { width: 14px; height: 14px; left: 6px; }
QLineEdit, QSpinBox, QComboBox, QPlainTextEdit {
    background: %field; color: %text; border: 1px solid %line; border-radius: 4px; padding: 3px 7px;
    selection-background-color: %accent; selection-color: %onaccent; }
QLineEdit, QSpinBox, QComboBox { min-height: 18px; }
QLineEdit:focus, QSpinBox:focus, QComboBox:focus, QPlainTextEdit:focus { border: 1px solid %accent; }
QLineEdit[refused="true"] { border: 1px solid %error; }
QLineEdit:disabled, QComboBox:disabled, QSpinBox:disabled { color: %faint; }
QComboBox { padding-left: 7px; padding-right: 0; }
QComboBox::drop-down { border: none; width: 18px; }
QComboBox::down-arrow, QSpinBox::down-arrow { image: url(%down); width: 10px; height: 10px; }
QSpinBox::up-arrow { image: url(%up); width: 10px; height: 10px; }
QComboBox QAbstractItemView { background: %panel; color: %text; border: 1px solid %line;
    selection-background-color: %selection; selection-color: %text; outline: none; }
QSpinBox::up-button, QSpinBox::down-button { border: none; width: 16px; }
QPushButton, QToolButton[plain="true"] { background: %field; color: %text; border: 1px solid %line; border-radius: 4px;
    padding: 4px 12px; min-height: 18px; }
QToolButton[plain="true"] { padding: 4px; }
QPushButton:hover, QToolButton[plain="true"]:hover { background: %selection; }
QPushButton:focus, QToolButton[plain="true"]:focus { border: 1px solid %accent; }
QPushButton:disabled { color: %faint; }
QPushButton:default, QPushButton[primary="true"] { background: %accent; color: %onaccent; border: 1px solid %accent; }
QPushButton:default:hover, QPushButton[primary="true"]:hover { background: %accenthover; }
QPushButton:default:focus, QPushButton[primary="true"]:focus { border: 2px solid %text; padding: 3px 11px; }
QPushButton:default:disabled, QPushButton[primary="true"]:disabled { background: %line; border-color: %line; color: %quiet; }
QPushButton[link="true"] { background: transparent; border: 1px solid transparent; color: %accent; padding: 2px 4px; text-align: left; }
QPushButton[link="true"]:hover { text-decoration: underline; }
QPushButton[link="true"]:focus { border: 1px solid %accent; }
QPushButton[tab="true"] { background: transparent; border: none; border-radius: 0; border-bottom: 2px solid transparent;
    color: %quiet; padding: 4px 2px 5px 2px; }
QPushButton[tab="true"]:hover { color: %text; background: transparent; }
QPushButton[tab="true"]:checked { color: %text; font-weight: 600; border-bottom: 2px solid %accent; }
QPushButton[tab="true"]:focus { color: %accent; border: 1px solid %accent; border-bottom: 2px solid %accent; border-radius: 3px; padding: 3px 1px 5px 1px; }
#toolColumn QToolButton { border: 1px solid transparent; border-radius: 6px; background: transparent; color: %quiet; }
#toolColumn QToolButton:hover { background: %ground; }
#toolColumn QToolButton:checked { background: %selection; }
#toolColumn QToolButton:focus { border: 1px solid %accent; }
QCheckBox { spacing: 8px; }
QCheckBox::indicator, QMenu::indicator:non-exclusive, QTableView::indicator { width: 14px; height: 14px; border: 1px solid %quiet; border-radius: 3px; background: %field; }
QCheckBox::indicator:checked { background: %accent; border-color: %accent; image: url(%check); }
QCheckBox:focus { color: %accent; }
QCheckBox::indicator:focus { border: 2px solid %accent; }
QRadioButton { spacing: 8px; }
QRadioButton::indicator { width: 14px; height: 14px; border: 1px solid %quiet; border-radius: 8px; background: %field; }
QRadioButton::indicator:checked { width: 6px; height: 6px; border: 5px solid %accent; }
QRadioButton:focus { color: %accent; }
QRadioButton::indicator:focus { border-color: %accent; }
QRadioButton:disabled { color: %quiet; }
QHeaderView { background: %panel; border: none; }
QHeaderView::section { background: %panel; color: %quiet; border: none; font-size: 12px; font-weight: 600; padding: 2px 4px; }
QAbstractItemView { border: 1px solid transparent; outline: none; color: %text; background: %panel; }
QAbstractItemView:focus { border: 1px solid %accent; }
QSplitter::handle { background: %line; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: %scroll; border-radius: 3px; margin: 2px; min-height: 24px; min-width: 24px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSlider::groove:horizontal { height: 3px; background: %line; border-radius: 1px; }
QSlider::sub-page:horizontal { background: %accent; border-radius: 1px; }
QSlider::handle:horizontal { width: 14px; height: 14px; margin: -6px 0; border-radius: 7px; background: %panel; border: 2px solid %accent; }
QSlider::handle:horizontal:focus { background: %accent; }
QProgressBar { border: none; background: %line; border-radius: 2px; max-height: 4px; min-height: 4px; }
QProgressBar::chunk { background: %accent; border-radius: 2px; }
QToolTip { background: %panel; color: %text; border: 1px solid %line; padding: 4px; }
#messageBar, #startPage, #commandResults { background: %panel; border: 1px solid %line; border-radius: 6px; }
#mapHint { background: %panel; border: 1px solid %line; border-radius: 6px; padding: 4px 14px; }
#messageBar[fault="true"] { border-left: 4px solid %error; }
#startPage QPushButton[step="true"] { text-align: left; padding: 10px 14px; min-height: 38px; min-width: 410px; }
#commandResults::item { padding: 5px 8px; background: transparent; border: 1px solid transparent; }
#serverLayers::item:disabled { color: %faint; }
#commandResults::item:selected { background: %selection; color: %text; }
QTextBrowser { border: 1px solid transparent; background: %panel; }
QTextBrowser:focus { border: 1px solid %accent; }
QDialog { background: %panel; border: 1px solid %line; }
QTableView { gridline-color: %line; selection-background-color: %selection; selection-color: %text; }
)");
    const std::pair<const char*, QString> values[] = {
        {"%panel", p.panel.name()},
        {"%ground", p.ground.name()},
        {"%line", p.hairline.name()},
        {"%text", p.text.name()},
        {"%quiet", p.quietText.name()},
        {"%faint", mixed(p.quietText, p.panel, 0.45).name()},
        {"%selection", p.selection.name()},
        {"%field", p.field.name()},
        {"%accenthover", mixed(p.accent, p.text, 0.2).name()},
        {"%accent", p.accent.name()},
        {"%onaccent", p.dark ? p.ground.name() : QStringLiteral("#ffffff")},
        {"%error", p.error.name()},
        {"%scroll", mixed(p.hairline, p.quietText, 0.35).name()},
        {"%down", p.dark ? QStringLiteral(":/icons/down-dark.svg") : QStringLiteral(":/icons/down-light.svg")},
        {"%up", p.dark ? QStringLiteral(":/icons/up-dark.svg") : QStringLiteral(":/icons/up-light.svg")},
        {"%check", p.dark ? QStringLiteral(":/icons/check-dark.svg") : QStringLiteral(":/icons/check-light.svg")},
    };
    for (const auto& [token, value] : values)
        sheet.replace(QLatin1String{token}, value);
    return sheet;
}

} // namespace

Appearance::Appearance(session::Settings& settings, std::optional<session::Theme> given, QObject* parent)
    : QObject{parent}, m_settings{settings}, m_given{given} {
    loadResources();
    QApplication::setStyle("Fusion");
    apply();
    qApp->installEventFilter(this);
}

session::Theme Appearance::theme() const { return m_given.value_or(m_settings.theme()); }

void Appearance::choose(session::Theme theme) {
    m_given.reset();
    m_settings.setTheme(theme);
    apply();
}

bool Appearance::systemIsDark() const {
    // An empty palette brings the system's own back for a moment.
    QApplication::setPalette(QPalette{});
    return QApplication::palette().color(QPalette::Window).lightness() < 128;
}

void Appearance::apply() {
    m_applying = true;
    const bool dark = theme() == session::Theme::Dark || (theme() == session::Theme::FollowSystem && systemIsDark());
    m_palette = dark ? darkPalette() : lightPalette();
    QApplication::setPalette(widgetPalette(m_palette));
    qApp->setStyleSheet(styleSheet(m_palette));
    m_applying = false;
    emit changed();
}

QIcon Appearance::icon(const QString& path) const {
    return QIcon{new LineIcon{path, m_palette.text, mixed(m_palette.quietText, m_palette.panel, 0.45)}};
}

bool Appearance::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ThemeChange && !m_applying && theme() == session::Theme::FollowSystem)
        QMetaObject::invokeMethod(
            this, [this] { apply(); }, Qt::QueuedConnection);
    return QObject::eventFilter(watched, event);
}

} // namespace fencewright::desktop
