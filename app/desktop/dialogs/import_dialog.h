#pragma once

#include <QDialog>

#include "exchange/vector_reader.h"
#include "model/fence.h"
#include "session/settings.h"

#include <functional>
#include <optional>

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace fencewright::desktop {

/// What a foreign vector file is to become.
enum class ImportPurpose { Reference, Fences, Sites, Homes };

struct ImportChoices {
    std::string layer;
    std::string crs; ///< empty: the file's own
    std::string nameField;
    std::string numberField; ///< reference layers: the parcel number
    std::string where;       ///< attribute filter
    model::FenceKind kind = model::FenceKind::KeepOut;
    std::optional<StatedLength> setback; ///< sites: a keep-out for each

    /// To read that file with them.
    exchange::ReadRequest request(const QString& path) const;
};

/// Asks what cannot be known from the file: which layer, which columns, the coordinates where the file does not say.
class ImportDialog : public QDialog {
    Q_OBJECT

public:
    ImportDialog(ImportPurpose purpose, exchange::VectorDescription description, const session::Settings& settings,
                 QWidget* parent);

    ImportChoices choices() const;

    /// Asked before a filter is accepted: tells the last argument what is wrong with it, or nothing.
    using Trial = std::function<void(const ImportChoices&, std::function<void(const QString&)>)>;
    void setTrial(Trial trial) { m_trial = std::move(trial); }

private:
    void go();
    void fillColumns();
    void check();
    void setBusy(bool busy);

    ImportPurpose m_purpose;
    Trial m_trial;
    exchange::VectorDescription m_description;
    const session::Settings& m_settings;
    QComboBox* m_layer;
    QLabel* m_about;
    QLineEdit* m_crs;
    QLabel* m_crsWords;
    QComboBox* m_name;
    QComboBox* m_number = nullptr;
    QComboBox* m_kind = nullptr;
    QLineEdit* m_setback = nullptr;
    QLineEdit* m_where;
    QLabel* m_refusal;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
