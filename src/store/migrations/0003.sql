-- Version 3: copies that are taken away and come back. merge_conflict holds what merging has left open, row_alias the
-- uids by which copies know rows that are here under another one, merged_change the copy from which a change came, and
-- record_lease, in a copy, the record numbers that it may give. What a copy says of itself stands in meta.
create table merge_conflict (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "number" $int,
  "copy" $text,
  "device" $text,
  "table" $text,
  "row" $text,
  "column" $text,
  "sort" $text,
  "state" $text,
  "base" $text,
  "there" $text,
  "change" $text,
  "who" $text,
  "at" $text
) $strict;
create unique index merge_conflict_current on merge_conflict (site, uid) where to_change is null;
create index merge_conflict_from on merge_conflict (from_change);
create index merge_conflict_to on merge_conflict (to_change) where to_change is not null;

create table row_alias (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "table" $text,
  "row" $text
) $strict;
create unique index row_alias_current on row_alias (site, uid) where to_change is null;
create index row_alias_from on row_alias (from_change);
create index row_alias_to on row_alias (to_change) where to_change is not null;

create table merged_change (
  change $int primary key references change (seq),
  copy $text not null
) $strict;

create table record_lease (
  site $int primary key references site (id),
  next $int not null,
  last $int not null
) $strict;

-- All versions of one row.
create index contexts_past on contexts (uid) where to_change is not null;
create index relations_past on relations (uid) where to_change is not null;
create index phases_past on phases (uid) where to_change is not null;
create index fabrics_past on fabrics (uid) where to_change is not null;
create index forms_past on forms (uid) where to_change is not null;
create index dates_past on dates (uid) where to_change is not null;
create index sherds_past on sherds (uid) where to_change is not null;
create index rims_past on rims (uid) where to_change is not null;
create index joins_past on joins (uid) where to_change is not null;
create index site_sheet_past on site_sheet (uid) where to_change is not null;
create index document_past on document (uid) where to_change is not null;
create index import_file_past on import_file (uid) where to_change is not null;
create index evidence_past on evidence (uid) where to_change is not null;
create index merge_conflict_past on merge_conflict (uid) where to_change is not null;
create index row_alias_past on row_alias (uid) where to_change is not null;
