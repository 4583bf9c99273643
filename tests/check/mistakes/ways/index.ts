import { dependentWays } from "./dependentWays";
import { divisionWays } from "./divisionWays";
import { meshWays } from "./meshWays";
import { pairWays } from "./pairWays";
import { partWays } from "./partWays";
import { portWays } from "./portWays";
import { reactiveWays } from "./reactiveWays";
import { sumWays } from "./sumWays";
import { valueWays } from "./valueWays";
import type { Way } from "./way";
import { zeroingWays } from "./zeroingWays";

/** A way to make each mistake of the catalogue, worked out a second time. Nothing here is shared with the catalogue. */
export const WAYS: readonly Way[] = [
  ...sumWays,
  ...zeroingWays,
  ...dependentWays,
  ...portWays,
  ...divisionWays,
  ...pairWays,
  ...reactiveWays,
  ...valueWays,
  ...partWays,
  ...meshWays,
];
