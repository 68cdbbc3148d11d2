#pragma once

#include <QAbstractScrollArea>
#include <QWidget>

#include "desktop/theme.h"
#include "session/live_audit.h"
#include "session/open_document.h"
#include "session/settings.h"

class QLabel;
class QLineEdit;

namespace fencewright::desktop {

/// The bars of one year: when each fence is in force, and the date cursor, dragged or moved by keys.
class CalendarBars : public QAbstractScrollArea {
    Q_OBJECT

public:
    CalendarBars(session::OpenDocument& document, session::LiveAudit& audit, Appearance& appearance,
                 QWidget* parent = nullptr);

    /// The x of a day of the shown year in viewport pixels, for tests.
    double xOf(model::Date date) const;
    /// As high as its rows need, within bounds.
    int fittingHeight() const;

signals:
    /// A double click on the row of a fence.
    void fenceOpened(const fencewright::model::FenceId& id);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;

private:
    void fitRows();
    void moveTo(model::Date date);
    model::Date dateAt(double x) const;
    const model::Fence* fenceAt(double y) const;
    int nameWidth() const;

    session::OpenDocument& m_document;
    session::LiveAudit& m_audit;
    Appearance& m_appearance;
};

/// The strip along the bottom: the bars, the date, the next change, the operating area.
class CalendarStrip : public QWidget {
    Q_OBJECT

public:
    CalendarStrip(session::OpenDocument& document, session::LiveAudit& audit, session::Settings& settings,
                  Appearance& appearance, QWidget* parent = nullptr);

    void focusDate();

signals:
    void fenceOpened(const fencewright::model::FenceId& id);

private:
    void restate();

    session::OpenDocument& m_document;
    session::LiveAudit& m_audit;
    session::Settings& m_settings;
    CalendarBars* m_bars;
    QLineEdit* m_date;
    QLabel* m_next;
    QLabel* m_area;
};

} // namespace fencewright::desktop
