-- Version 4: what each change wrote and ended, as hashes (docs/design/0006-content-hash.md). One row a change.
create table change_hash (
  seq $int primary key references change (seq),
  sums $text not null,
  counters $text not null,
  late $int not null,
  link $text not null
) $strict;
