#pragma once

#include <QKeySequence>
#include <QLineEdit>

namespace fencewright::desktop {

/// Takes the next combination that is pressed. Tab and Escape keep their meaning, so that a person gets out again.
class KeyField : public QLineEdit {
    Q_OBJECT

public:
    explicit KeyField(QWidget* parent = nullptr);

    void show(const QKeySequence& key);

signals:
    void pressed(const QKeySequence& key);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
};

} // namespace fencewright::desktop
