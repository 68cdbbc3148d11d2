#pragma once

#include <QWidget>

#include <functional>
#include <memory>
#include <vector>

class QGridLayout;
class QLabel;

namespace fencewright::desktop {

/// What a field reads where it is about several things that differ in it.
[[nodiscard]] inline QString differing() { return QString{QChar{0xFFFF}}; }

/// One field of a form, bound by functions to what it shows and changes.
struct FormField {
    enum class Kind {
        Text,      ///< typed; taken at Enter or when the focus leaves
        Choice,    ///< one of `choices`
        Check,     ///< yes or no
        Notes,     ///< several lines
        Slider,    ///< 0 to 100
        Command,   ///< typed, then a button (labelled by the first of `choices`) or Enter does it
        Statement, ///< shown only
        Action,    ///< shown, with a button (labelled by the first of `choices`) that does something about it
    };

    Kind kind = Kind::Text;
    QString name;  ///< of the editor, for tests and style
    QString label; ///< translated
    std::function<QString()> read;
    /// @throws Fault  the input is refused: its words appear under the field and nothing changes.
    std::function<void(const QString&)> write;
    QStringList choices; ///< of a Choice; of a Text, a second part at its right: what the number counts from
    std::function<int()> readChoice;
    std::function<void(int)> writeChoice; ///< @throws Fault likewise
    std::function<QString()> aside;       ///< quiet words at the right
    std::function<QString()> refusal;     ///< of a Text: what was found wrong with it only later
    QString placeholder;
};

/// A form of typed fields: label, editor, and under it the reason where an input was refused.
class FormGrid : public QWidget {
    Q_OBJECT

public:
    explicit FormGrid(QWidget* parent = nullptr);
    ~FormGrid() override;

    void setFields(std::vector<FormField> fields);
    /// Reads all values anew; what is being typed stays.
    void refresh();
    void focusFirst();

signals:
    /// A field was accepted or given up by a key: the keys belong to the map again.
    void left();

private:
    struct Row;
    void addRow(FormField field);
    void commit(std::size_t index, const QString& text);
    void chooseIn(std::size_t index, int choice);
    void guarded(std::size_t index, const std::function<void()>& change);
    void refresh(Row& row);
    void showRefusal(Row& row, const QString& words);

    QGridLayout* m_grid;
    std::vector<std::unique_ptr<Row>> m_rows;
    bool m_refreshing = false;
};

} // namespace fencewright::desktop
