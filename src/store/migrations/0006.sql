-- Version 6: the shape of vessels: pieces measured, their sections and bands, drawings, measures of former times.
create table pieces (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "piece" $text,
  "vessel" $text,
  "record" $text,
  "form" $text,
  "part" $text,
  "technique" $text,
  "stance" $text,
  "rim_diameter_mm100" $int,
  "rim_least_mm100" $int,
  "rim_most_mm100" $int,
  "diameter_certainty" $text,
  "rim_permille" $int,
  "base_diameter_mm100" $int,
  "base_permille" $int,
  "handles" $int,
  "source" $text,
  "source_file" $text,
  "scale" $text,
  "picture" $text,
  "measured_by" $text,
  "measured_on" $text,
  "reference" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index pieces_current on pieces (site, uid) where to_change is null;
create index pieces_from on pieces (from_change);
create index pieces_to on pieces (to_change) where to_change is not null;
create index pieces_past on pieces (uid) where to_change is not null;

create table sections (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "piece" $text,
  "section" $text,
  "vessel" $text,
  "side" $text,
  "point" $int,
  "r_mm100" $int,
  "z_mm100" $int,
  "drawn" $text,
  "extra" $text
) $strict;
create unique index sections_current on sections (site, uid) where to_change is null;
create index sections_from on sections (from_change);
create index sections_to on sections (to_change) where to_change is not null;
create index sections_past on sections (uid) where to_change is not null;

create table bands (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "piece" $text,
  "band" $text,
  "kind" $text,
  "side" $text,
  "from_z_mm100" $int,
  "to_z_mm100" $int,
  "lines" $int,
  "spacing_mm100" $int,
  "angle" $text,
  "colour" $text,
  "drawn" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index bands_current on bands (site, uid) where to_change is null;
create index bands_from on bands (from_change);
create index bands_to on bands (to_change) where to_change is not null;
create index bands_past on bands (uid) where to_change is not null;

create table drawings (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "drawing" $text,
  "piece" $text,
  "record" $text,
  "vessel" $text,
  "reason" $text,
  "status" $text,
  "illustrator" $text,
  "sent_on" $text,
  "drawn_on" $text,
  "checked_by" $text,
  "checked_on" $text,
  "corrections" $text,
  "scale" $text,
  "catalogue" $int,
  "plate" $text,
  "caption" $text,
  "place" $text,
  "file" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index drawings_current on drawings (site, uid) where to_change is null;
create index drawings_from on drawings (from_change);
create index drawings_to on drawings (to_change) where to_change is not null;
create index drawings_past on drawings (uid) where to_change is not null;

create table measures (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "measure" $text,
  "region" $text,
  "holds_ml" $int,
  "earliest" $int,
  "latest" $int,
  "reference" $text,
  "known" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index measures_current on measures (site, uid) where to_change is null;
create index measures_from on measures (from_change);
create index measures_to on measures (to_change) where to_change is not null;
create index measures_past on measures (uid) where to_change is not null;

create index sections_by_piece on sections (site, "piece") where to_change is null;
create index sections_by_vessel on sections (site, "vessel") where to_change is null;
create index bands_by_piece on bands (site, "piece") where to_change is null;
create index pieces_by_vessel on pieces (site, "vessel") where to_change is null;
create index pieces_by_record on pieces (site, "record") where to_change is null;
