-- Version 2: what is seen on a piece and the years that go with it, as the store knows better than the shipped rows.
create table evidence (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "ware" $text,
  "fabric" $text,
  "form" $text,
  "decoration" $text,
  "technique" $text,
  "edge" $text,
  "body" $text,
  "firing" $text,
  "mark" $text,
  "legend" $text,
  "lattice_angle" $text,
  "bore" $text,
  "print_colour" $text,
  "region" $text,
  "earliest" $int,
  "latest" $int,
  "full_from" $int,
  "full_to" $int,
  "nature" $text,
  "basis" $text,
  "reference" $text,
  "known" $text,
  "quality" $text,
  "look_alikes" $text,
  "notes" $text,
  "status" $text,
  "extra" $text
) $strict;
create unique index evidence_current on evidence (site, uid) where to_change is null;
create index evidence_from on evidence (from_change);
create index evidence_to on evidence (to_change) where to_change is not null;
