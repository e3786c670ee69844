-- Version 1. $int, $text, $bytes, $strict stand for the database's own words; weights are in mg, lengths in 0.01 mm,
-- percentages in tenths, years astronomical.
create table site (
  id $int primary key,
  code $text not null unique
) $strict;

create table change (
  seq $int primary key,
  uid $text not null unique,
  at $text not null,
  who $text not null,
  origin $text not null,
  command $text not null,
  undoes $int references change (seq),
  rows_added $int not null,
  rows_changed $int not null,
  rows_removed $int not null
) $strict;

create table record_counter (
  site $int primary key references site (id),
  next $int not null
) $strict;

create table document_chunk (
  sha256 $text not null,
  ordinal $int not null,
  bytes $bytes not null,
  primary key (sha256, ordinal)
) $strict;

create table contexts (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "context" $text,
  "type" $text,
  "deposit" $text,
  "integrity" $text,
  "feature" $text,
  "spit" $text,
  "group" $text,
  "area" $text,
  "phase" $text,
  "not_before" $int,
  "not_after" $int,
  "limit_basis" $text,
  "recovery" $text,
  "sieved_ml" $int,
  "my_earliest" $int,
  "my_latest" $int,
  "my_reason" $text,
  "my_confidence" $text,
  "description" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index contexts_current on contexts (site, uid) where to_change is null;
create index contexts_from on contexts (from_change);
create index contexts_to on contexts (to_change) where to_change is not null;

create table relations (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "later" $text,
  "earlier" $text,
  "kind" $text,
  "extra" $text
) $strict;
create unique index relations_current on relations (site, uid) where to_change is null;
create index relations_from on relations (from_change);
create index relations_to on relations (to_change) where to_change is not null;

create table phases (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "phase" $text,
  "title" $text,
  "area" $text,
  "order" $int,
  "earliest" $int,
  "latest" $int,
  "basis" $text,
  "extra" $text
) $strict;
create unique index phases_current on phases (site, uid) where to_change is null;
create index phases_from on phases (from_change);
create index phases_to on phases (to_change) where to_change is not null;

create table fabrics (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "fabric" $text,
  "name" $text,
  "ware_group" $text,
  "variant_of" $text,
  "description" $text,
  "source_area" $text,
  "earliest" $int,
  "latest" $int,
  "basis" $text,
  "reference" $text,
  "status" $text,
  "extra" $text
) $strict;
create unique index fabrics_current on fabrics (site, uid) where to_change is null;
create index fabrics_from on fabrics (from_change);
create index fabrics_to on fabrics (to_change) where to_change is not null;

create table forms (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "form" $text,
  "name" $text,
  "vessel_class" $text,
  "earliest" $int,
  "latest" $int,
  "basis" $text,
  "reference" $text,
  "status" $text,
  "extra" $text
) $strict;
create unique index forms_current on forms (site, uid) where to_change is null;
create index forms_from on forms (from_change);
create index forms_to on forms (to_change) where to_change is not null;

create table dates (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "fabric" $text,
  "form" $text,
  "decoration" $text,
  "region" $text,
  "earliest" $int,
  "latest" $int,
  "full_from" $int,
  "full_to" $int,
  "basis" $text,
  "reference" $text,
  "extra" $text
) $strict;
create unique index dates_current on dates (site, uid) where to_change is null;
create index dates_from on dates (from_change);
create index dates_to on dates (to_change) where to_change is not null;

create table sherds (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "record" $text,
  "context" $text,
  "fabric" $text,
  "count" $int,
  "weight_mg" $int,
  "form" $text,
  "part" $text,
  "decoration" $text,
  "vessels" $int,
  "rims" $int,
  "rim_diameter_mm100" $int,
  "rim_permille" $int,
  "base_diameter_mm100" $int,
  "base_permille" $int,
  "fabric_certainty" $text,
  "form_certainty" $text,
  "decoration_certainty" $text,
  "judged" $text,
  "condition" $text,
  "mark" $text,
  "vessel" $text,
  "bag" $text,
  "box" $text,
  "sample" $text,
  "drawing" $text,
  "notes" $text,
  "recorder" $text,
  "recorded_on" $text,
  "checked_by" $text,
  "earliest" $int,
  "latest" $int,
  "extra" $text
) $strict;
create unique index sherds_current on sherds (site, uid) where to_change is null;
create index sherds_from on sherds (from_change);
create index sherds_to on sherds (to_change) where to_change is not null;

create table rims (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "record" $text,
  "rim_permille" $int,
  "rim_diameter_mm100" $int,
  "class_width_mm100" $int,
  "certainty" $text,
  "vessel" $text,
  "extra" $text
) $strict;
create unique index rims_current on rims (site, uid) where to_change is null;
create index rims_from on rims (from_change);
create index rims_to on rims (to_change) where to_change is not null;

create table joins (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "record_a" $text,
  "record_b" $text,
  "kind" $text,
  "vessel" $text,
  "extra" $text
) $strict;
create unique index joins_current on joins (site, uid) where to_change is null;
create index joins_from on joins (from_change);
create index joins_to on joins (to_change) where to_change is not null;

create table site_sheet (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "title" $text,
  "counting_rule" $text,
  "counted" $text,
  "box_limit_mg" $int
) $strict;
create unique index site_sheet_current on site_sheet (site, uid) where to_change is null;
create index site_sheet_from on site_sheet (from_change);
create index site_sheet_to on site_sheet (to_change) where to_change is not null;

create table document (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "mime" $text,
  "sha256" $text,
  "bytes" $int
) $strict;
create unique index document_current on document (site, uid) where to_change is null;
create index document_from on document (from_change);
create index document_to on document (to_change) where to_change is not null;

create table import_file (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "kind" $text,
  "sha256" $text
) $strict;
create unique index import_file_current on import_file (site, uid) where to_change is null;
create index import_file_from on import_file (from_change);
create index import_file_to on import_file (to_change) where to_change is not null;
