/**
 * How a unit's controls share the work, as records of traits. Common practice of the trade, no source.
 */
export interface Strategy {
  /** One zone's demand for cold also cools the other: a base that never satisfies holds the rail running. */
  readonly zonesLinked: boolean;
  /** What the pressure control is for: the rail's temperature (and loss of charge), pumping down and safety, or none is there. */
  readonly pressureControl: 'temperature' | 'safety' | 'none';
  /** Either zone can rest while the other runs. */
  readonly restsAlone: boolean;
}

const kinds = {
  'shared-low-pressure': { zonesLinked: true, pressureControl: 'temperature', restsAlone: true },
  'separate-thermostats': { zonesLinked: false, pressureControl: 'safety', restsAlone: true },
  'one-thermostat': { zonesLinked: true, pressureControl: 'none', restsAlone: false },
  'circuit-each': { zonesLinked: false, pressureControl: 'none', restsAlone: true },
  'single-zone': { zonesLinked: false, pressureControl: 'none', restsAlone: false },
  'pump-down': { zonesLinked: false, pressureControl: 'safety', restsAlone: false },
} as const satisfies Record<string, Strategy>;

export type StrategyName = keyof typeof kinds;
export const STRATEGIES: Readonly<Record<StrategyName, Strategy>> = kinds;
export const strategyNames = Object.keys(kinds) as [StrategyName, ...StrategyName[]];
