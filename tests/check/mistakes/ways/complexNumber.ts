/** A complex number in doubles, with the little arithmetic that these tests need. */
export type Complex = { readonly re: number; readonly im: number };

export const real = (re: number): Complex => ({ re, im: 0 });
export const imaginary = (im: number): Complex => ({ re: 0, im });
export const polar = (size: number, degrees: number): Complex => ({
  re: size * Math.cos((degrees * Math.PI) / 180),
  im: size * Math.sin((degrees * Math.PI) / 180),
});
export const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
export const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
export const over = (a: Complex, b: Complex): Complex => {
  const square = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
};
export const scaled = (a: Complex, factor: number): Complex => ({ re: a.re * factor, im: a.im * factor });
export const sizeOf = ({ re, im }: Complex): number => Math.hypot(re, im);
export const degreesOf = ({ re, im }: Complex): number => (Math.atan2(im, re) * 180) / Math.PI;
