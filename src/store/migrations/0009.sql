-- Version 9: what the report is made of, and what the work is to cost and has taken: prose, tables and figures placed, works
-- cited, rates, estimates and hours.
create table texts (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "text" $text,
  "section" $text,
  "title" $text,
  "reports" $text,
  "position" $int,
  "body" $text,
  "author" $text,
  "written_on" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index texts_current on texts (site, uid) where to_change is null;
create index texts_from on texts (from_change);
create index texts_to on texts (to_change) where to_change is not null;
create index texts_past on texts (uid) where to_change is not null;

create table report_items (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "item" $text,
  "section" $text,
  "shows" $text,
  "shown" $text,
  "reports" $text,
  "position" $int,
  "caption" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index report_items_current on report_items (site, uid) where to_change is null;
create index report_items_from on report_items (from_change);
create index report_items_to on report_items (to_change) where to_change is not null;
create index report_items_past on report_items (uid) where to_change is not null;

create table bibliography (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "citation" $text,
  "type" $text,
  "authors" $text,
  "year" $text,
  "title" $text,
  "csl" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index bibliography_current on bibliography (site, uid) where to_change is null;
create index bibliography_from on bibliography (from_change);
create index bibliography_to on bibliography (to_change) where to_change is not null;
create index bibliography_past on bibliography (uid) where to_change is not null;

create table rates (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "task" $text,
  "grade" $text,
  "rate_day_e6" $int,
  "hours_day_e6" $int,
  "pace_low_e6" $int,
  "pace_likely_e6" $int,
  "pace_high_e6" $int,
  "currency" $text,
  "reference" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index rates_current on rates (site, uid) where to_change is null;
create index rates_from on rates (from_change);
create index rates_to on rates (to_change) where to_change is not null;
create index rates_past on rates (uid) where to_change is not null;

create table estimates (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "estimate" $text,
  "quote" $text,
  "stage" $text,
  "task" $text,
  "grade" $text,
  "basis" $text,
  "amount_e6" $int,
  "sherds_low_e6" $int,
  "sherds_likely_e6" $int,
  "sherds_high_e6" $int,
  "hours_low_e6" $int,
  "hours_likely_e6" $int,
  "hours_high_e6" $int,
  "cost_low_e6" $int,
  "cost_likely_e6" $int,
  "cost_high_e6" $int,
  "currency" $text,
  "made_by" $text,
  "made_on" $text,
  "notes" $text,
  "extra" $text
) $strict;
create unique index estimates_current on estimates (site, uid) where to_change is null;
create index estimates_from on estimates (from_change);
create index estimates_to on estimates (to_change) where to_change is not null;
create index estimates_past on estimates (uid) where to_change is not null;

create table hours (
  uid $text not null,
  site $int not null references site (id),
  from_change $int not null references change (seq),
  to_change $int references change (seq),
  "entry" $text,
  "stage" $text,
  "task" $text,
  "grade" $text,
  "who" $text,
  "worked_on" $text,
  "hours_e6" $int,
  "notes" $text,
  "extra" $text
) $strict;
create unique index hours_current on hours (site, uid) where to_change is null;
create index hours_from on hours (from_change);
create index hours_to on hours (to_change) where to_change is not null;
create index hours_past on hours (uid) where to_change is not null;
