/**
 * How a unit's controls share the work, as records of traits. Common practice of the trade, no source.
 */
export interface Strategy {
  /** One zone's demand for cold also cools the other: a base that never satisfies holds the rail running. */
  readonly zonesLinked: boolean;
  /** What the pressure control is for: the rail's temperature (and loss of charge), pumping down and safety, or none is there. */
  readonly pressureControl: 'temperature' | 'safety' | 'none';
  /** Each zone has a refrigeration circuit of its own. */
  readonly ownCircuits: boolean;
  /** The sequence of operation, sentences by code under `sequence` in words/. */
  readonly sequence: readonly string[];
  /** The same where no pressure control is fitted and the compressor follows the thermostats; absent where it can't do without. */
  readonly sequenceWithout?: readonly string[];
}

const kinds = {
  'shared-low-pressure': {
    zonesLinked: true,
    pressureControl: 'temperature',
    ownCircuits: false,
    sequence: ['base-opens-valve', 'suction-starts', 'open-zones-cool', 'suction-stops-shared', 'clock-shuts-rail'],
  },
  'separate-thermostats': {
    zonesLinked: false,
    pressureControl: 'safety',
    ownCircuits: false,
    sequence: ['zone-opens-valve', 'suction-starts', 'zone-shuts-valve', 'pumps-down', 'clock-shuts-rail'],
    sequenceWithout: ['zone-opens-valve', 'call-starts', 'zone-shuts-valve', 'last-call-stops', 'clock-shuts-rail'],
  },
  'one-thermostat': {
    zonesLinked: true,
    pressureControl: 'none',
    ownCircuits: false,
    sequence: ['thermostat-starts', 'one-fan', 'thermostat-stops', 'off-cycle-clears'],
  },
  'circuit-each': {
    zonesLinked: false,
    pressureControl: 'none',
    ownCircuits: true,
    sequence: ['circuit-starts', 'circuit-stops', 'rail-rests-itself'],
  },
  'single-zone': {
    zonesLinked: false,
    pressureControl: 'none',
    ownCircuits: false,
    sequence: ['thermostat-starts', 'thermostat-stops', 'defrost-clears'],
  },
  'pump-down': {
    zonesLinked: false,
    pressureControl: 'safety',
    ownCircuits: false,
    sequence: ['zone-opens-valve', 'suction-starts', 'valve-shuts', 'pumps-down', 'defrost-clears'],
  },
} as const satisfies Record<string, Strategy>;

export type StrategyName = keyof typeof kinds;
export const STRATEGIES: Readonly<Record<StrategyName, Strategy>> = kinds;
export const strategyNames = Object.keys(kinds) as [StrategyName, ...StrategyName[]];

/** Whether a unit so controlled can't run without a pressure control. */
export const needsPressureControl = (strategy: StrategyName): boolean =>
  STRATEGIES[strategy].pressureControl !== 'none' && STRATEGIES[strategy].sequenceWithout === undefined;
