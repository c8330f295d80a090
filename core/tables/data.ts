/**
 * The government air tables of the second opinion, digits and order as printed.
 *
 * Source: U.S. Navy Diving Manual, SS521-AG-PRO-010, Revision 7 (1 December 2016), tables 9-6, 9-7 and 9-8.
 * Read from a plain-text transcription that names this source, not from the publisher's file; every row
 * passes the checks in test/published/tables.test.ts. Hold them against the manual before relying on them.
 */

/** Repetitive groups from the least residual nitrogen to the most. Source: table 9-7, column heads. */
// oxfmt-ignore
export const GROUPS = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J', 'K', 'L', 'M', 'N', 'O', 'Z'] as const;

export type Group = (typeof GROUPS)[number];

/** One depth of table 9-7: depth, no-stop limit, and the longest bottom time that still gives each group. */
export interface NoStopRow {
  readonly depthFsw: number;
  /** Minutes; null where the table says unlimited. */
  readonly limitMin: number | null;
  /** Minutes in the order of `GROUPS`, from A on; null where the table leaves the group blank. */
  readonly maxMin: readonly (number | null)[];
  /** Printed as an asterisk after the last time: the group that no bottom time passes. */
  readonly topGroup: Group | null;
}

const UNLIMITED = null;
/** Blank at 150 fsw and deeper: the group is not given at that depth. */
const BLANK = null;

/** No-stop limits and repetitive groups: depth (fsw), limit, times, asterisk. Source: table 9-7. */
// oxfmt-ignore
const TABLE_9_7: readonly (readonly [number, number | null, readonly (number | null)[], Group | null])[] = [
  [10, UNLIMITED, [57, 101, 158, 245, 426], 'F'],
  [15, UNLIMITED, [36, 60, 88, 121, 163, 217, 297, 449], 'I'],
  [20, UNLIMITED, [26, 43, 61, 82, 106, 133, 165, 205, 256, 330, 461], 'L'],
  [25, 1102, [20, 33, 47, 62, 78, 97, 117, 140, 166, 198, 236, 285, 354, 469, 992, 1102], null],
  [30, 371, [17, 27, 38, 50, 62, 76, 91, 107, 125, 145, 167, 193, 223, 260, 307, 371], null],
  [35, 232, [14, 23, 32, 42, 52, 63, 74, 87, 100, 115, 131, 148, 168, 190, 215, 232], null],
  [40, 163, [12, 20, 27, 36, 44, 53, 63, 73, 84, 95, 108, 121, 135, 151, 163], null],
  [45, 125, [11, 17, 24, 31, 39, 46, 55, 63, 72, 82, 92, 102, 114, 125], null],
  [50, 92, [9, 15, 21, 28, 34, 41, 48, 56, 63, 71, 80, 89, 92], null],
  [55, 74, [8, 14, 19, 25, 31, 37, 43, 50, 56, 63, 71, 74], null],
  [60, 63, [7, 12, 17, 22, 28, 33, 39, 45, 51, 57, 63], null],
  [70, 48, [6, 10, 14, 19, 23, 28, 32, 37, 42, 47, 48], null],
  [80, 39, [5, 9, 12, 16, 20, 24, 28, 32, 36, 39], null],
  [90, 33, [4, 7, 11, 14, 17, 21, 24, 28, 31, 33], null],
  [100, 25, [4, 6, 9, 12, 15, 18, 21, 25], null],
  [110, 20, [3, 6, 8, 11, 14, 16, 19, 20], null],
  [120, 15, [3, 5, 7, 10, 12, 15], null],
  [130, 12, [2, 4, 6, 9, 11, 12], null],
  [140, 10, [2, 4, 6, 8, 10], null],
  [150, 8, [BLANK, 3, 5, 7, 8], null],
  [160, 7, [BLANK, 3, 5, 6, 7], null],
  [170, 6, [BLANK, BLANK, 4, 6], null],
  [180, 6, [BLANK, BLANK, 4, 5, 6], null],
  [190, 5, [BLANK, BLANK, 3, 5], null],
];

/** Table 9-7 by name. Source: as `TABLE_9_7`. */
export const NO_STOP_ROWS: readonly NoStopRow[] = TABLE_9_7.map(([depthFsw, limitMin, maxMin, topGroup]) => ({
  depthFsw,
  limitMin,
  maxMin,
  topGroup,
}));

/**
 * Surface intervals, h:mm: the end of each band; the new group falls by one a band, from the group at the
 * start (the key) to A. The first band begins at 0:10; past the last end the next dive is a first dive.
 * Source: table 9-8, upper part.
 */
// oxfmt-ignore
export const INTERVAL_BAND_ENDS: Readonly<Record<Group, readonly string[]>> = {
  A: ['2:20'],
  B: ['1:16', '3:36'],
  C: ['0:55', '2:11', '4:31'],
  D: ['0:52', '1:47', '3:03', '5:23'],
  E: ['0:52', '1:44', '2:39', '3:55', '6:15'],
  F: ['0:52', '1:44', '2:37', '3:31', '4:48', '7:08'],
  G: ['0:52', '1:44', '2:37', '3:29', '4:23', '5:40', '8:00'],
  H: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:16', '6:32', '8:52'],
  I: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:08', '7:24', '9:44'],
  J: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '7:00', '8:16', '10:36'],
  K: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:52', '9:09', '11:29'],
  L: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:50', '8:44', '10:01', '12:21'],
  M: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:50', '8:42', '9:37', '10:53', '13:13'],
  N: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:50', '8:42', '9:34', '10:29', '11:45', '14:05'],
  O: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:50', '8:42', '9:34', '10:27', '11:21', '12:37', '14:58'],
  Z: ['0:52', '1:44', '2:37', '3:29', '4:21', '5:13', '6:06', '6:58', '7:50', '8:42', '9:34', '10:27', '11:19', '12:13', '13:30', '15:50'],
};

/** Shortest surface interval of the table, minutes; a shorter one joins two dives. Source: table 9-8. */
export const SHORTEST_INTERVAL_MIN = 10;

/** A residual nitrogen time: minutes, or a mark that the table explains beneath itself. */
export type ResidualCell = number | 'cannot be determined' | 'use the 30 fsw row';

/** Printed as two asterisks. Source: table 9-8, lower part. */
const NONE = 'cannot be determined';
/** Printed as a dagger: read down to 30 fsw and go on with that row. Source: table 9-8, lower part. */
const ROW_30 = 'use the 30 fsw row';

/** Residual nitrogen times, minutes: depth (fsw), then A to Z. Source: table 9-8, lower part. */
// oxfmt-ignore
export const RESIDUAL_ROWS: readonly (readonly [number, readonly ResidualCell[]])[] = [
  [10, [58, 101, 159, 246, 427, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE]],
  [15, [37, 61, 89, 122, 164, 218, 298, 450, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE]],
  [20, [27, 44, 62, 83, 106, 134, 166, 206, 257, 331, 462, NONE, NONE, NONE, NONE, NONE]],
  [25, [21, 34, 48, 63, 79, 98, 118, 141, 167, 198, 237, 286, 354, 470, ROW_30, ROW_30]],
  [30, [18, 28, 39, 51, 63, 77, 92, 108, 126, 146, 168, 194, 224, 261, 308, 372]],
  [35, [15, 24, 33, 43, 53, 64, 75, 88, 101, 116, 132, 149, 169, 191, 216, 245]],
  [40, [13, 21, 29, 37, 45, 55, 64, 74, 85, 97, 109, 122, 136, 152, 169, 188]],
  [45, [12, 18, 25, 32, 40, 48, 56, 64, 73, 83, 93, 104, 115, 127, 140, 154]],
  [50, [11, 17, 23, 29, 35, 42, 49, 57, 65, 73, 81, 90, 99, 109, 120, 131]],
  [55, [10, 15, 20, 26, 32, 38, 44, 51, 58, 65, 72, 80, 88, 96, 105, 114]],
  [60, [9, 14, 19, 24, 29, 35, 40, 46, 52, 58, 65, 72, 79, 86, 93, 101]],
  [70, [8, 12, 16, 20, 25, 29, 34, 39, 44, 49, 54, 59, 65, 71, 77, 83]],
  [80, [7, 10, 14, 18, 22, 25, 29, 33, 38, 42, 46, 51, 55, 60, 65, 70]],
  [90, [6, 9, 12, 16, 19, 22, 26, 29, 33, 37, 41, 44, 48, 52, 57, 61]],
  [100, [5, 8, 11, 14, 17, 20, 23, 26, 30, 33, 36, 40, 43, 47, 50, 54]],
  [110, [5, 8, 10, 13, 16, 18, 21, 24, 27, 30, 33, 36, 39, 42, 45, 48]],
  [120, [5, 7, 9, 12, 14, 17, 19, 22, 24, 27, 30, 32, 35, 38, 41, 44]],
  [130, [4, 6, 9, 11, 13, 15, 18, 20, 22, 25, 27, 30, 32, 35, 37, 40]],
  [140, [4, 6, 8, 10, 12, 14, 16, 19, 21, 23, 25, 27, 30, 32, 34, 37]],
  [150, [4, 6, 8, 9, 11, 13, 15, 17, 19, 21, 23, 26, 28, 30, 32, 34]],
  [160, [4, 5, 7, 9, 11, 13, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32]],
  [170, [3, 5, 7, 8, 10, 12, 14, 15, 17, 19, 21, 22, 24, 26, 28, 30]],
  [180, [3, 5, 6, 8, 10, 11, 13, 14, 16, 18, 19, 21, 23, 25, 26, 28]],
  [190, [3, 5, 6, 8, 9, 11, 12, 14, 15, 17, 18, 20, 22, 23, 25, 26]],
];

/** Heads of table 9-6: increase of altitude, feet. Source: table 9-6. */
// oxfmt-ignore
export const ALTITUDE_STEPS_FT: readonly number[] = [1000, 2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10000];

/** Interval before an ascent to altitude, h:mm, by the highest group of the 24 h before. Source: table 9-6. */
// oxfmt-ignore
export const ALTITUDE_WAITS: Readonly<Record<Group, readonly string[]>> = {
  A: ['0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00'],
  B: ['0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '1:42'],
  C: ['0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '1:48', '6:23'],
  D: ['0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '1:45', '5:24', '9:59'],
  E: ['0:00', '0:00', '0:00', '0:00', '0:00', '0:00', '1:37', '4:39', '8:18', '12:54'],
  F: ['0:00', '0:00', '0:00', '0:00', '0:00', '1:32', '4:04', '7:06', '10:45', '15:20'],
  G: ['0:00', '0:00', '0:00', '0:00', '1:19', '3:38', '6:10', '9:13', '12:52', '17:27'],
  H: ['0:00', '0:00', '0:00', '1:06', '3:10', '5:29', '8:02', '11:04', '14:43', '19:18'],
  I: ['0:00', '0:00', '0:56', '2:45', '4:50', '7:09', '9:41', '12:44', '16:22', '20:58'],
  J: ['0:00', '0:41', '2:25', '4:15', '6:19', '8:39', '11:11', '14:13', '17:52', '22:27'],
  K: ['0:30', '2:03', '3:47', '5:37', '7:41', '10:00', '12:33', '15:35', '19:14', '23:49'],
  L: ['1:45', '3:18', '5:02', '6:52', '8:56', '11:15', '13:48', '16:50', '20:29', '25:04'],
  M: ['2:54', '4:28', '6:12', '8:01', '10:06', '12:25', '14:57', '18:00', '21:38', '26:14'],
  N: ['3:59', '5:32', '7:16', '9:06', '11:10', '13:29', '16:02', '19:04', '22:43', '27:18'],
  O: ['4:59', '6:33', '8:17', '10:06', '12:11', '14:30', '17:02', '20:05', '23:43', '28:19'],
  Z: ['5:56', '7:29', '9:13', '11:03', '13:07', '15:26', '17:59', '21:01', '24:40', '29:15'],
};
