/** A complex number in doubles; phasors and impedances. */
export type Complex = { readonly re: number; readonly im: number };

export function complex(re: number, im = 0): Complex {
  return { re, im };
}

export function magnitude(a: Complex): number {
  return Math.hypot(a.re, a.im);
}

/** Angle in degrees, in (−180, 180]; 0 for 0. */
export function phaseDegrees(a: Complex): number {
  if (a.re === 0 && a.im === 0) return 0;
  const degrees = (Math.atan2(a.im, a.re) * 180) / Math.PI;
  return degrees <= -180 ? 180 : degrees;
}

/** The number of the given magnitude and angle; exact zeros on the axes, so that 90° is purely imaginary. */
export function fromPolar(size: number, degrees: number): Complex {
  const turn = ((degrees % 360) + 360) % 360;
  if (turn === 0) return { re: size, im: 0 };
  if (turn === 90) return { re: 0, im: size };
  if (turn === 180) return { re: -size, im: 0 };
  if (turn === 270) return { re: 0, im: -size };
  const radians = (turn * Math.PI) / 180;
  return { re: size * Math.cos(radians), im: size * Math.sin(radians) };
}

export function addComplex(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function multiplyComplex(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

/** a/b by Smith's scaling, which neither over- nor underflows where the quotient does not. Source: Smith, CACM 5(8), 1962. */
export function divideComplex(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re;
    const scale = b.re + b.im * ratio;
    return { re: (a.re + a.im * ratio) / scale, im: (a.im - a.re * ratio) / scale };
  }
  const ratio = b.re / b.im;
  const scale = b.re * ratio + b.im;
  return { re: (a.re * ratio + a.im) / scale, im: (a.im * ratio - a.re) / scale };
}

export function conjugate(a: Complex): Complex {
  return { re: a.re, im: -a.im };
}
