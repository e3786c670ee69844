-- Version 8: the chemistry of the clay: reference materials with their values, samples, sources, readings and what they read, thin
-- sections with their points, and what was decided on each analyte.

create table standards (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "standard" $text,
  "name" $text,
  "issuer" $text,
  "issued_on" $text,
  "expires_on" $text,
  "basis" $text,
  "drying" $text,
  "portion_mg" $int,
  "source" $text,
  "checked_by" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index standards_current on standards (site, uid) where to_change is null;
create index standards_from on standards (from_change);
create index standards_to on standards (to_change) where to_change is not null;
create index standards_past on standards (uid) where to_change is not null;

create table certified (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "standard" $text,
  "analyte" $text,
  "unit" $text,
  "value_e6" $int,
  "uncertainty_e6" $int,
  "uncertainty_kind" $text,
  "k_e6" $int,
  "status" $text,
  "source" $text,
  "known" $text,
  "extra" $text
) $strict;
create unique index certified_current on certified (site, uid) where to_change is null;
create index certified_from on certified (from_change);
create index certified_to on certified (to_change) where to_change is not null;
create index certified_past on certified (uid) where to_change is not null;

create table samples (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "sample" $text,
  "record" $text,
  "context" $text,
  "kind" $text,
  "question" $text,
  "technique" $text,
  "permission" $text,
  "taken_by" $text,
  "sampled_on" $text,
  "sent_on" $text,
  "laboratory" $text,
  "laboratory_number" $text,
  "cost" $text,
  "received_on" $text,
  "result" $text,
  "remainder" $text,
  "returned_on" $text,
  "place" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index samples_current on samples (site, uid) where to_change is null;
create index samples_from on samples (from_change);
create index samples_to on samples (to_change) where to_change is not null;
create index samples_past on samples (uid) where to_change is not null;

create table sources (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "chem_group" $text,
  "name" $text,
  "place" $text,
  "east_e6" $int,
  "north_e6" $int,
  "grid" $text,
  "basis" $text,
  "reference" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index sources_current on sources (site, uid) where to_change is null;
create index sources_from on sources (from_change);
create index sources_to on sources (to_change) where to_change is not null;
create index sources_past on sources (uid) where to_change is not null;

create table readings (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "reading" $text,
  "sample" $text,
  "record" $text,
  "chem_group" $text,
  "standard" $text,
  "role" $text,
  "position" $text,
  "surface" $text,
  "preparation" $text,
  "wall_mm100" $int,
  "instrument" $text,
  "mode" $text,
  "beam" $text,
  "taken_at" $text,
  "taken_by" $text,
  "seconds_e6" $int,
  "sequence" $int,
  "file" $text,
  "file_row" $int,
  "notes" $text,
  "extra" $text
) $strict;
create unique index readings_current on readings (site, uid) where to_change is null;
create index readings_from on readings (from_change);
create index readings_to on readings (to_change) where to_change is not null;
create index readings_past on readings (uid) where to_change is not null;

create table concentrations (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "reading" $text,
  "analyte" $text,
  "unit" $text,
  "state" $text,
  "value_e6" $int,
  "error_e6" $int,
  "limit_e6" $int,
  "raw" $text,
  "raw_error" $text,
  "extra" $text
) $strict;
create unique index concentrations_current on concentrations (site, uid) where to_change is null;
create index concentrations_from on concentrations (from_change);
create index concentrations_to on concentrations (to_change) where to_change is not null;
create index concentrations_past on concentrations (uid) where to_change is not null;

create table petrology (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "section" $text,
  "sample" $text,
  "record" $text,
  "fabric" $text,
  "petro_group" $text,
  "groundmass" $text,
  "inclusions" $text,
  "voids" $text,
  "firing" $text,
  "points" $int,
  "described_by" $text,
  "reference" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index petrology_current on petrology (site, uid) where to_change is null;
create index petrology_from on petrology (from_change);
create index petrology_to on petrology (to_change) where to_change is not null;
create index petrology_past on petrology (uid) where to_change is not null;

create table point_counts (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "section" $text,
  "component" $text,
  "count" $int,
  "extra" $text
) $strict;
create unique index point_counts_current on point_counts (site, uid) where to_change is null;
create index point_counts_from on point_counts (from_change);
create index point_counts_to on point_counts (to_change) where to_change is not null;
create index point_counts_past on point_counts (uid) where to_change is not null;

create table analytes (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "analyte" $text,
  "decision" $text,
  "reason" $text,
  "decided_by" $text,
  "extra" $text
) $strict;
create unique index analytes_current on analytes (site, uid) where to_change is null;
create index analytes_from on analytes (from_change);
create index analytes_to on analytes (to_change) where to_change is not null;
create index analytes_past on analytes (uid) where to_change is not null;

create index readings_by_sample on readings (site, "sample") where to_change is null;
create index concentrations_by_reading on concentrations (site, "reading") where to_change is null;
