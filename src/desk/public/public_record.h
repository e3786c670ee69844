#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "desk/public/public_object.h"
#include "desk/vessels/piece_rows.h"
#include "model/record_more.h"

namespace sherd::desk {

/// A record with what the public side asks of it. Reads everything once.
class PublicRecord {
 public:
  static Result<std::unique_ptr<PublicRecord>> read(const Session& session, const Environment& environment,
                                                    Progress& progress);
  PublicRecord(const PublicRecord&) = delete;
  PublicRecord& operator=(const PublicRecord&) = delete;

  const Record& record() const { return record_; }
  const std::vector<Inclusion>& inclusions() const { return inclusions_; }
  const Site& site() const { return site_; }
  Year now() const { return now_; }

  /// In the order of the lines.
  PublicObject object(std::size_t line) const;
  /// npos where there is no such line.
  std::size_t line_of(const std::string& record) const;
  const PieceRecord* piece(const std::string& name) const;
  /// The piece that shows most of that fabric (and form, where one is named): with a profile first.
  const PieceRecord* typical_piece(const std::string& fabric) const;
  const Fabric* fabric(const std::string& code) const;
  const Form* form(const std::string& code) const;

 private:
  explicit PublicRecord(Site site) : site_(std::move(site)) {}
  Result<void> read_rows(const Session& session);
  void say_what(PublicObject& object, const RecordLine& line) const;
  void say_when(PublicObject& object, const RecordLine& line, std::size_t at) const;
  void say_where(PublicObject& object, const RecordLine& line) const;

  Site site_;
  Year now_{2000};
  Record record_;
  DatedRecord dated_;
  std::vector<PieceRecord> pieces_;
  std::vector<Inclusion> inclusions_;
  std::map<std::string, std::size_t> lines_, fabrics_, forms_, contexts_;
  std::map<std::string, std::string> trays_, away_, photos_, pieces_of_;
  std::map<std::string, Bag> bags_;
};

}  // namespace sherd::desk
