import type { AnyCommand } from '../discord/command.ts';
import { ammoniaCommand } from './ammonia.command.ts';
import type { WaterDeps } from './asked.ts';
import { changeCommand } from './change.command.ts';
import { convertCommand } from './convert.command.ts';
import { flowCommand } from './flow.command.ts';
import { lightCommand } from './light.command.ts';
import { salinityCommand } from './salinity.command.ts';
import { topOffCommand } from './top-off.command.ts';
import { volumeCommand } from './volume.command.ts';

/** Everything under `/water`. */
export const waterCommands = (deps: WaterDeps): AnyCommand[] => [
  changeCommand(deps),
  salinityCommand(deps),
  topOffCommand(deps),
  volumeCommand(deps),
  ammoniaCommand(deps),
  convertCommand(deps),
  lightCommand(deps),
  flowCommand(deps),
];
