/** Units in which a member likes to read and type. What is stored is always SI: litres, °C, practical salinity, dKH, mg/L. */
export type TankUnits = {
  volume: 'L' | 'US gal' | 'imp gal';
  temperature: '°C' | '°F';
  alkalinity: 'dKH' | 'meq/L' | 'ppm CaCO3';
  salinity: 'ppt' | 'SG' | 'mS/cm';
};

/** Every unit that can be chosen, the default first. */
export const UNITS = {
  volume: ['L', 'US gal', 'imp gal'],
  temperature: ['°C', '°F'],
  alkalinity: ['dKH', 'meq/L', 'ppm CaCO3'],
  salinity: ['ppt', 'SG', 'mS/cm'],
} as const satisfies { [Of in keyof TankUnits]: readonly TankUnits[Of][] };

export const DEFAULT_UNITS: TankUnits = { volume: 'L', temperature: '°C', alkalinity: 'dKH', salinity: 'ppt' };

export const TANK_PURPOSES = ['display', 'quarantine', 'frag', 'other'] as const;
export type TankPurpose = (typeof TANK_PURPOSES)[number];

/** `club`: every member of the club may read it and run calculators for it; `me`: nobody else. */
export const VISIBILITIES = ['me', 'club'] as const;
export type Visibility = (typeof VISIBILITIES)[number];

export const MOST_TANKS = 10;

/** One tank of one member in one club. Doses go by the net volume: the water, without rock, sand and air. */
export type Tank = {
  id: number;
  guildId: string;
  memberId: string;
  name: string;
  purpose: TankPurpose;
  netVolumeL: number;
  /** How far the volume may be off, as a share: 0.1 is ten per cent either way. */
  volumeError: number;
  /** As last measured; null while nobody has said. */
  practicalSalinity: number | null;
  temperatureC: number | null;
  units: TankUnits;
  visibility: Visibility;
};
