import geomagnetism from 'geomagnetism';
import { describe, expect, it, vi } from 'vitest';
import { decimalYear, declination } from '../../src/place/declination.ts';

describe('decimalYear', () => {
  it('counts the days of the year it is in', () => {
    // by hand: 181 days before 1 July, 182 in a leap year
    expect(decimalYear('2027-01-01')).toBe(2027);
    expect(decimalYear('2027-07-01')).toBe(2027 + 181 / 365);
    expect(decimalYear('2028-07-01')).toBe(2028 + 182 / 366);
    expect(decimalYear('2028-12-31')).toBe(2028 + 365 / 366);
  });

  it('refuses what is not a date', () => {
    expect(() => decimalYear('1.7.2027')).toThrow('got "1.7.2027"');
    expect(() => decimalYear('2027-13-01')).toThrow('YYYY-MM-DD');
  });
});

describe('declination', () => {
  const at = (year: number) => declination(44.93, -93.57, year);

  it('chooses the model by date', () => {
    const names = [2012, 2015, 2018.5, 2019, 2019.999, 2020, 2024.999, 2025, 2033];
    expect(names.map((year) => at(year)?.model)).toEqual([
      'WMM2015',
      'WMM2015',
      'WMM2015',
      'WMM2015v2',
      'WMM2015v2',
      'WMM2020',
      'WMM2020',
      'WMM2025',
      'WMM2025',
    ]);
  });

  it('is extrapolated outside of 2015 to 2030, and unknown 5 years beyond', () => {
    expect(at(2014.99)?.extrapolated).toBe(true);
    expect(at(2015)?.extrapolated).toBe(false);
    expect(at(2030)?.extrapolated).toBe(false);
    expect(at(2030.01)?.extrapolated).toBe(true);
    expect([at(2010), at(2035)].map((d) => d !== null)).toEqual([true, true]);
    expect([at(2009.99), at(2035.01), at(Number.NaN)]).toEqual([null, null, null]);
  });

  it.each(['2013-05-06', '2017-10-11', '2022-03-04', '2027-08-09', '2033-02-28'])(
    'on %s is what the library says by its own clock, which is right in years of 365 days',
    (date) => {
      const silenced = vi.spyOn(console, 'error').mockImplementation(() => {}); // it prints outside of its dates
      const options = { allowOutOfBoundsModel: true };
      const { decl } = geomagnetism
        .model(new Date(`${date}T00:00:00Z`), options)
        .point([44.93, -93.57]);
      silenced.mockRestore();
      // the same coefficients and sums, carried on from another moment: rounding
      expect(at(decimalYear(date))!.declinationDeg).toBeCloseTo(decl, 9);
    },
  );

  it('takes one model over from the other without a jump that a diver’s compass could show', () => {
    // models agree within their stated error, about 0.4° in declination (WMM2020 and WMM2025 reports)
    for (const year of [2020, 2025]) {
      expect(Math.abs(at(year)!.declinationDeg - at(year - 1e-6)!.declinationDeg)).toBeLessThan(
        0.4,
      );
    }
  });
});
