/* guillotine_look.c - where on a sheet a piece may be put, and where it fits best. */
#include "guillotine_tree.h"

#include <math.h>

static double rate(
        const struct node *n, int along, const int64_t size[AXES], const struct taste *taste)
{
	int across = !along;
	double left_along = (double)(n->room[along] - n->size[along] - size[along]);
	double left_across = (double)(n->room[across] - size[across]);
	double step = (double)(size[across] - n->size[across]);

	return taste->along * left_along + taste->across * left_across + taste->step * fabs(step);
}

/* Tries to put a piece of that size beside a node along an axis. */
static void try_beside(const struct packing *p, uint32_t x, int along, const int64_t size[AXES],
        bool turned, const struct taste *taste, struct spot *best, bool *found)
{
	const struct node *n = &p->nodes[x];
	double score;

	if (n->size[along] + size[along] > n->room[along] || size[!along] > n->room[!along])
		return;
	score = rate(n, along, size, taste);
	if (score < best->score) {
		best->node = x;
		best->along = (uint8_t)along;
		best->turned = turned;
		best->score = score;
		*found = true;
	}
}

static bool look_on_empty(
        const struct packing *p, const struct kind *k, const struct taste *taste, struct spot *spot)
{
	bool found = false;

	for (int turned = 0; turned < k->ways; turned++) {
		int64_t left_x = p->stock[AXIS_X] - k->size[turned];
		int64_t left_y = p->stock[AXIS_Y] - k->size[!turned];
		double score = taste->empty[AXIS_X] * (double)left_x +
		               taste->empty[AXIS_Y] * (double)left_y;

		if (left_x < 0 || left_y < 0 || score >= spot->score)
			continue;
		spot->node = NO_NODE;
		spot->turned = turned;
		spot->score = score;
		found = true;
	}
	return found;
}

bool packing_look(struct packing *p, uint32_t sheet, uint32_t kind, const struct taste *taste,
        struct spot *spot)
{
	const struct sheet *s = &p->sheets[sheet];
	const struct kind *k = &p->kinds[kind];
	bool found = false;

	p->work++;
	if (s->area + k->area > p->stock_area)
		return false;
	if (s->root == NO_NODE)
		found = look_on_empty(p, k, taste, spot);
	for (uint32_t x = s->root; x != NO_NODE; x = node_after(p, s->root, x)) {
		const struct node *n = &p->nodes[x];

		p->work++;
		for (int turned = 0; turned < k->ways; turned++) {
			int64_t size[AXES] = { k->size[turned], k->size[!turned] };

			/* Beside a node along its own row is at the end of that row. */
			for (int along = 0; along < AXES; along++)
				if (n->parent == NO_NODE || p->nodes[n->parent].along != along)
					try_beside(p, x, along, size, turned, taste, spot, &found);
		}
	}
	if (found)
		spot->sheet = sheet;
	return found;
}
