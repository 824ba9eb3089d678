/* view.c - small texts that the planner keeps between runs. */
#include "sql.h"

enum status store_view_get(struct store *s, int64_t variant, const char *key, struct arena *mem,
        const char **text, struct error *err)
{
	enum status st = sql_text(s, "SELECT text FROM view WHERE variant = ?1 AND key = ?2",
	        VALUES(INT(variant), TEXT(key)), mem, text, err);

	if (st == STATUS_OK && !*text)
		*text = "";
	return st;
}

enum status store_view_set(
        struct store *s, int64_t variant, const char *key, const char *text, struct error *err)
{
	return sql_run(s,
	        "INSERT INTO view (variant, key, text) VALUES (?1, ?2, ?3)"
	        " ON CONFLICT (variant, key) DO UPDATE SET text = excluded.text",
	        VALUES(INT(variant), TEXT(key), TEXT(text ? text : "")), err);
}
