/** The part of psychrolib 1.1.1 that moist-air.ts uses: °C, Pa, relative humidity 0..1, kg of water a kg of dry air, J/kg. The package has no types. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(dryBulb: number): number;
    GetHumRatioFromVapPres(vapourPressure: number, pressure: number): number;
    GetHumRatioFromRelHum(dryBulb: number, relativeHumidity: number, pressure: number): number;
    GetTDewPointFromVapPres(dryBulb: number, vapourPressure: number): number;
    GetTWetBulbFromRelHum(dryBulb: number, relativeHumidity: number, pressure: number): number;
    GetMoistAirDensity(dryBulb: number, humidityRatio: number, pressure: number): number;
    GetMoistAirEnthalpy(dryBulb: number, humidityRatio: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
