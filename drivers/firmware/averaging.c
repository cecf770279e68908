#include "averaging.h"

static int32_t voltage_of_sum(const struct averaging *averaging)
{
	const int64_t divisor = 10000LL * averaging->samples_each; /* 0.1 nV to uV */
	int64_t sum = (int64_t)averaging->code_sum * averaging->step_tenth_nV;

	return (int32_t)((sum + (sum < 0 ? -divisor : divisor) / 2) / divisor);
}

bool averaging_add(struct averaging *averaging, uint64_t time_us, int16_t code, bool clipped,
		   struct reading *reading)
{
	if (averaging->samples == 0)
		averaging->begin_us = time_us;
	averaging->code_sum += code;
	/* With a clipped sample the mean would be too low and look true. */
	averaging->clipped |= clipped;
	if (++averaging->samples < averaging->samples_each)
		return false;
	reading->time_ms = (uint32_t)(averaging->begin_us / 1000U) + averaging->half_ms;
	reading->voltage_uV = voltage_of_sum(averaging);
	reading->overload = averaging->clipped;
	averaging_give_up(averaging);
	return true;
}

void averaging_give_up(struct averaging *averaging)
{
	averaging->samples = 0;
	averaging->code_sum = 0;
	averaging->clipped = false;
}
