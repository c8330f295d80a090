/** Citations that several rules share. */
import { said } from '../words/said';

/** Source of the maximum operating depth (core/gas.ts). */
export const MOD_SOURCE = said`NOAA Diving Manual, 4th ed. (2001), ch. 15: maximum operating depth; working PO2 1.4 after the NOAA Diving Program (2015)`;

/** Source of the oxygen limits (core/oxygen/limits.ts). */
export const NOAA_LIMITS_SOURCE = said`NOAA Diving Manual, oxygen partial pressure limits for normal exposure`;

/** Source of how long a supply lasts (core/supply.ts). */
export const SUPPLY_SOURCE = said`U.S. Navy Diving Manual, ch. 7: duration of a supply`;

/** Source of the marks for breathing-gas density (core/gas.ts). */
export const DENSITY_SOURCE = said`G. Anthony, S. J. Mitchell, "Respiratory physiology of rebreather diving" (2016)`;

/** Source of the hours before a flight (core/ledger/flying.ts). */
export const FLYING_SOURCE = said`P. J. Sheffield, R. D. Vann (eds), Flying After Recreational Diving, workshop proceedings (2004)`;

/** Source of the table’s wait before going up (core/ledger/climb-views.ts). */
export const CLIMB_TABLE_SOURCE = said`U.S. Navy Diving Manual, Revision 7 (2016), table 9-6`;

/** Source of the two other views of when flying is clear (core/ledger/flight-views.ts). */
export const FLIGHT_TABLE_SOURCE = said`U.S. Navy Diving Manual, Revision 7 (2016), table 9-6; A. A. Buehlmann’s tolerated tensions with the diver’s gradient factor at the cabin’s pressure`;
