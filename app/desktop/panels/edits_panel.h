#pragma once

#include <QWidget>

#include "desktop/theme.h"
#include "session/open_document.h"

class QListView;

namespace fencewright::desktop {

/// Every step since the document was opened, by its title, the oldest first: which one is now, which one is saved.
/// A click, or Enter, goes there.
class EditsPanel : public QWidget {
    Q_OBJECT

public:
    EditsPanel(session::OpenDocument& document, Appearance& appearance, QWidget* parent = nullptr);

private:
    class Model;
    class RowDelegate;
    void showNow();

    session::OpenDocument& m_document;
    Model* m_model;
    QListView* m_list;
};

} // namespace fencewright::desktop
