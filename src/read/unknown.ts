/**
 * Settings that nobody knows yet. What stands in the file in their place (taken over from a similar unit, say) is no figure: it is neither
 * reckoned with nor printed, since somebody could set a control by it.
 */
import type { Profile } from '../model/profile.js';

const touches = (fact: string, key: string): boolean => fact === key || fact.startsWith(`${key}.`) || key.startsWith(`${fact}.`);

/**
 * The profile without its unknown settings, and their keys: `control.pressure`, `zones.rail.control`.
 * @param isOfProfile false where a store wrote the fact for its own unit: there it is known
 */
export const withoutUnknown = (
  profile: Profile,
  isOfProfile: (path: readonly string[]) => boolean,
): { readonly profile: Profile; readonly unknown: readonly string[] } => {
  const isUnknown = (...path: string[]): boolean =>
    ['cut_in', 'cut_out'].some((end) => {
      const whole = [...path, end];
      return isOfProfile(whole) && (profile.not_known ?? []).some((fact) => touches(fact, whole.join('.')));
    });
  const pressure = isUnknown('control', 'pressure');
  const ids = Object.keys(profile.zones).filter((id) => isUnknown('zones', id, 'control'));
  return {
    profile: {
      ...profile,
      control: pressure ? { ...profile.control, pressure: undefined } : profile.control,
      zones: Object.fromEntries(
        Object.entries(profile.zones).map(([id, zone]) => [id, ids.includes(id) ? { ...zone, control: undefined } : zone]),
      ),
    },
    unknown: [...(pressure ? ['control.pressure'] : []), ...ids.map((id) => `zones.${id}.control`)],
  };
};
