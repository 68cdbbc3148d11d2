#pragma once

#include <QLineEdit>

#include <functional>
#include <vector>

class QListWidget;

namespace fencewright::desktop {

/// One line that the search offers.
struct SearchHit {
    QString words;
    QString aside; ///< what it is, or where it stands
    std::function<void()> act;
    QString key = {};
};

/// The field at the top: a command, a place, a name or a parcel number, typed and taken by Enter.
class CommandSearch : public QLineEdit {
    Q_OBJECT

public:
    using Provider = std::function<std::vector<SearchHit>(const QString&)>;

    explicit CommandSearch(QWidget* parent);
    /// Asked at each change of the text, in the order given.
    void addProvider(Provider provider) { m_providers.push_back(std::move(provider)); }
    /// Asked where nothing is typed.
    void setIdleProvider(std::function<std::vector<SearchHit>()> provider) { m_idle = std::move(provider); }
    /// Takes the focus and offers what there is before anything is typed.
    void begin();
    /// The key that leads here, as it is now.
    void showKey(const QString& key);
    /// What is offered now, for tests.
    QStringList offered() const;

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void offer();
    void place();
    void take(int row);

    std::vector<Provider> m_providers;
    std::function<std::vector<SearchHit>()> m_idle;
    std::vector<SearchHit> m_hits;
    QString m_key;
    QListWidget* m_list = nullptr;
};

} // namespace fencewright::desktop
