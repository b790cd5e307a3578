import { describe, expect, test } from 'vitest';
import { unionisedAmmonia } from '../../shared/ammonia.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

describe('worked cases of free ammonia (US EPA 1989)', () => {
  test.each(workedCases('unionised_ammonia'))('$id $output', (row) => {
    const { number, text, output } = row;
    expect(text('formula')).toBe('EPA1989');
    const found = told(
      unionisedAmmonia({
        totalMgPerL: number('total_ammonia_as_N_mg_L'),
        unit: 'NH3-N',
        ph: number('pH'),
        temperatureC: number('t_degC'),
        practicalSalinity: number('salinity'),
      }),
      'ammonia',
    );
    const got: Record<string, number> = {
      fraction_unionised: found.share,
      NH3_N_mg_L: found.nh3NMgPerL,
      NH3_mg_L: found.nh3MgPerL,
    };
    expectPass(row, got[output]);
  });
});
