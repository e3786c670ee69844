-- Rows of a store of version 1, one statement a line. Do not change: stores like it are out there.
insert into site values (1, 'SAL26');
insert into change values (1, 'c-1', '2026-05-01T09:00:00Z', 'Ann', 'sherdwright', 'import sherds s.csv', null, 4, 0, 0);
insert into change values (2, 'c-2', '2026-05-02T09:00:00Z', 'Ben', 'sherdwright', 'edit', null, 0, 1, 0);
insert into site_sheet (uid, site, from_change, title, counting_rule, box_limit_mg) values ('sheet', 1, 1, 'Tanyard Lane', 'rims', 12000000);
insert into contexts (uid, site, from_change, context, deposit, sieved_ml, my_earliest) values ('000001abcdefghij00000', 1, 1, '101', 'dump', 12500, -42);
insert into contexts (uid, site, from_change, context, deposit) values ('000001abcdefghij00001', 1, 1, '102', 'cut');
insert into sherds (uid, site, from_change, to_change, record, context, fabric, "count", weight_mg, rim_permille, notes) values ('000001abcdefghij00002', 1, 1, 2, '1', '101', 'grey-1', 3, 145000, 125, 'O''Neill''s "jar"');
insert into sherds (uid, site, from_change, record, context, fabric, "count") values ('000001abcdefghij00003', 1, 1, '2', '101', 'shell-3', 0);
insert into sherds (uid, site, from_change, record, context, fabric, "count", weight_mg, rim_permille, notes) values ('000001abcdefghij00002', 1, 2, '1', '101', 'grey-1', 3, 14500, 125, 'O''Neill''s "jar"');
insert into record_counter values (1, 3);
insert into document (uid, site, from_change, mime, sha256, bytes) values ('list/1', 1, 1, 'text/plain', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 3);
insert into document_chunk values ('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 0, x'616263');
