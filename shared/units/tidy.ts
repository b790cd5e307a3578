const DIGITS = '0123456789';

/**
 * A text with one way of writing what keyboards write in several: spaces, minus, micro, degree, raised and lowered
 * digits after a letter, charges of ions, wide digits, case. Nothing that changes a number: "10³" stays as it is.
 */
export function tidy(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000e-\u001f\u007f\u00ad\u200b-\u200f\u2060\ufeff\u202a-\u202e\u2066-\u2069\ufe0f]/g, '')
    .replace(/[\uff10-\uff19]/g, (digit) => DIGITS[digit.charCodeAt(0) - 0xff10] ?? '')
    .replace(/[\u2212\ufe63\uff0d\u2010\u2011]/g, '-')
    .replace(/[\u00b5\u03bc]/g, 'u')
    .replaceAll('℃', '°C')
    .replaceAll('℉', '°F')
    .replace(/[º˚]/g, '°')
    .replace(/[⁺⁻]|(?<=[a-zA-Z₀-₉])[²³](?=[⁺⁻])/g, '')
    .replace(/(?<=[a-zA-Z])[⁰¹²³⁴-⁹]/g, (raised) => DIGITS['⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(raised)] ?? '')
    .replace(/(?<=[a-zA-Z0-9])[₀-₉]/g, (lowered) => DIGITS[lowered.charCodeAt(0) - 0x2080] ?? '')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .replace(/^ | ?[.!?;,]? ?$/g, '');
}
