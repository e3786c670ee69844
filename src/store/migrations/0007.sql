-- Version 7: what becomes of the pottery: the repository and its rules, what is out of its bag, what is kept or not.
create table repositories (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "repository" $text,
  "accession" $text,
  "identifiers" $text,
  "creator" $text,
  "copyright_holder" $text,
  "licence" $text,
  "language" $text,
  "contact" $text,
  "box_limit_mg" $int,
  "bag_label_width_mm100" $int,
  "bag_label_height_mm100" $int,
  "box_label_width_mm100" $int,
  "box_label_height_mm100" $int,
  "bag_fields" $text,
  "box_fields" $text,
  "sheet" $text,
  "rules" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index repositories_current on repositories (site, uid) where to_change is null;
create index repositories_from on repositories (from_change);
create index repositories_to on repositories (to_change) where to_change is not null;
create index repositories_past on repositories (uid) where to_change is not null;

create table loans (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "loan" $text,
  "record" $text,
  "count" $int,
  "purpose" $text,
  "reference" $text,
  "holder" $text,
  "place" $text,
  "taken_on" $text,
  "taken_by" $text,
  "due_on" $text,
  "returned" $text,
  "returned_on" $text,
  "returned_to" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index loans_current on loans (site, uid) where to_change is null;
create index loans_from on loans (from_change);
create index loans_to on loans (to_change) where to_change is not null;
create index loans_past on loans (uid) where to_change is not null;

create table selections (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "selection" $text,
  "record" $text,
  "context" $text,
  "fabric" $text,
  "material" $text,
  "decision" $text,
  "decided" $text,
  "count" $int,
  "weight_mg" $int,
  "reason" $text,
  "disposal" $text,
  "decided_by" $text,
  "decided_on" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index selections_current on selections (site, uid) where to_change is null;
create index selections_from on selections (from_change);
create index selections_to on selections (to_change) where to_change is not null;
create index selections_past on selections (uid) where to_change is not null;
