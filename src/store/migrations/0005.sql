-- Version 5: what recording and the series need: scans, bags, decorations, inclusions, equivalents in other series, specimens,
-- pictures, trays and people; more of contexts, fabrics, lines and the project sheet.
alter table merged_change add column base $int not null default 0;

alter table contexts add column "stage" $text;
alter table relations add column "orders" $text;
alter table relations add column "decision" $text;
alter table relations add column "certainty" $text;
alter table relations add column "notes" $text;
alter table fabrics add column "hardness" $text;
alter table fabrics add column "feel" $text;
alter table fabrics add column "fracture" $text;
alter table fabrics add column "outside" $text;
alter table fabrics add column "core" $text;
alter table fabrics add column "inside" $text;
alter table fabrics add column "firing" $text;
alter table sherds add column "technique" $text;
alter table sherds add column "surface" $text;
alter table sherds add column "use_traces" $text;
alter table sherds add column "small_find" $text;
alter table sherds add column "accession" $text;
alter table sherds add column "photo" $text;
alter table sherds add column "passed_to" $text;
alter table sherds add column "weight_note" $text;
alter table sherds add column "wall_mm100" $int;
alter table site_sheet add column "level" $text;
alter table site_sheet add column "crumbs_below_mm100" $int;
alter table site_sheet add column "date_style" $text;
alter table site_sheet add column "region" $text;
alter table site_sheet add column "repository" $text;
alter table site_sheet add column "notes" $text;

create table scans (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "context" $text,
  "wares" $text,
  "amount" $text,
  "count" $int,
  "weight_mg" $int,
  "earliest" $int,
  "latest" $int,
  "comment" $text,
  "recorder" $text,
  "recorded_on" $text,
  "extra" $text
) $strict;
create unique index scans_current on scans (site, uid) where to_change is null;
create index scans_from on scans (from_change);
create index scans_to on scans (to_change) where to_change is not null;
create index scans_past on scans (uid) where to_change is not null;

create table bags (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "bag" $text,
  "context" $text,
  "box" $text,
  "material" $text,
  "count" $int,
  "weight_mg" $int,
  "received" $text,
  "cleaning" $text,
  "marking" $text,
  "recovery" $text,
  "sample" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index bags_current on bags (site, uid) where to_change is null;
create index bags_from on bags (from_change);
create index bags_to on bags (to_change) where to_change is not null;
create index bags_past on bags (uid) where to_change is not null;

create table decorations (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "decoration" $text,
  "name" $text,
  "technique" $text,
  "description" $text,
  "earliest" $int,
  "latest" $int,
  "basis" $text,
  "reference" $text,
  "status" $text,
  "extra" $text
) $strict;
create unique index decorations_current on decorations (site, uid) where to_change is null;
create index decorations_from on decorations (from_change);
create index decorations_to on decorations (to_change) where to_change is not null;
create index decorations_past on decorations (uid) where to_change is not null;

create table inclusions (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "fabric" $text,
  "inclusion" $text,
  "frequency" $text,
  "size_least_mm100" $int,
  "size_most_mm100" $int,
  "sorting" $text,
  "rounding" $text,
  "colour" $text,
  "scale" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index inclusions_current on inclusions (site, uid) where to_change is null;
create index inclusions_from on inclusions (from_change);
create index inclusions_to on inclusions (to_change) where to_change is not null;
create index inclusions_past on inclusions (uid) where to_change is not null;

create table equivalents (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "fabric" $text,
  "series" $text,
  "code" $text,
  "relation" $text,
  "said_by" $text,
  "reference" $text,
  "extra" $text
) $strict;
create unique index equivalents_current on equivalents (site, uid) where to_change is null;
create index equivalents_from on equivalents (from_change);
create index equivalents_to on equivalents (to_change) where to_change is not null;
create index equivalents_past on equivalents (uid) where to_change is not null;

create table specimens (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "specimen" $text,
  "fabric" $text,
  "form" $text,
  "record" $text,
  "place" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index specimens_current on specimens (site, uid) where to_change is null;
create index specimens_from on specimens (from_change);
create index specimens_to on specimens (to_change) where to_change is not null;
create index specimens_past on specimens (uid) where to_change is not null;

create table pictures (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "picture" $text,
  "title" $text,
  "record" $text,
  "context" $text,
  "fabric" $text,
  "form" $text,
  "file" $text,
  "small_file" $text,
  "taken_on" $text,
  "taken_by" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index pictures_current on pictures (site, uid) where to_change is null;
create index pictures_from on pictures (from_change);
create index pictures_to on pictures (to_change) where to_change is not null;
create index pictures_past on pictures (uid) where to_change is not null;

create table trays (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "tray" $text,
  "record" $text,
  "question" $text,
  "opinion" $text,
  "settled_by" $text,
  "extra" $text
) $strict;
create unique index trays_current on trays (site, uid) where to_change is null;
create index trays_from on trays (from_change);
create index trays_to on trays (to_change) where to_change is not null;
create index trays_past on trays (uid) where to_change is not null;

create table people (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "initials" $text,
  "name" $text,
  "role" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index people_current on people (site, uid) where to_change is null;
create index people_from on people (from_change);
create index people_to on people (to_change) where to_change is not null;
create index people_past on people (uid) where to_change is not null;

create index sherds_by_context on sherds (site, "context") where to_change is null;
create index sherds_by_record on sherds (site, "record") where to_change is null;
create index sherds_by_fabric on sherds (site, "fabric") where to_change is null;
create index sherds_by_vessel on sherds (site, "vessel") where to_change is null;
create index rims_by_record on rims (site, "record") where to_change is null;
create index joins_by_record_a on joins (site, "record_a") where to_change is null;
create index joins_by_record_b on joins (site, "record_b") where to_change is null;
create index pictures_by_record on pictures (site, "record") where to_change is null;
