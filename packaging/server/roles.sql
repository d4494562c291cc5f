-- Who may do what with a ledger on a PostgreSQL server. Run it once, as the server's administrator, inside
-- the database the ledger is to be in:
--
--     psql --dbname greenroom --file packaging/server/roles.sql
--
-- Then give each person a role of their own in one of the three, with a password that psql asks for:
--
--     CREATE ROLE ana LOGIN IN ROLE greenroom_writer;
--     \password ana
--
-- greenroom_owner   makes the tables and brings them up to date after an update of the program
-- greenroom_writer  reads and adds; what was written can be struck out, which adds too, never changed
-- greenroom_reader  reads
--
-- The rights to each table are given by the program when its owner makes or upgrades them. Running this
-- again does no harm.

SELECT format('CREATE ROLE %I NOLOGIN', one)
FROM unnest(ARRAY['greenroom_owner', 'greenroom_writer', 'greenroom_reader']) AS one
WHERE NOT EXISTS (SELECT FROM pg_roles WHERE rolname = one)
\gexec

SELECT format('REVOKE ALL ON DATABASE %I FROM PUBLIC', current_database())
\gexec
SELECT format('GRANT CONNECT ON DATABASE %I TO greenroom_owner, greenroom_writer, greenroom_reader',
              current_database())
\gexec

REVOKE ALL ON SCHEMA public FROM PUBLIC;
GRANT USAGE ON SCHEMA public TO greenroom_owner, greenroom_writer, greenroom_reader;
GRANT CREATE ON SCHEMA public TO greenroom_owner;
