/** The part of a drawing that is seen: the numbers of a viewBox. */
export interface View {
  x: number;
  y: number;
  width: number;
  height: number;
}

export function view_of(text: string | null): View | null {
  const numbers = (text ?? '').trim().split(/[\s,]+/).map(Number);
  const [x, y, width, height] = numbers;
  if (numbers.length !== 4 || numbers.some((one) => !Number.isFinite(one))) return null;
  if (x === undefined || y === undefined || width === undefined || height === undefined) return null;
  return width > 0 && height > 0 ? { x, y, width, height } : null;
}

export const text_of = (view: View): string => [view.x, view.y, view.width, view.height].map((one) => one.toFixed(2)).join(' ');

/** Nearer (`times` above 1) or farther about a point that keeps its place; never farther than the whole drawing twice over. */
export function zoomed(view: View, times: number, about: { x: number; y: number }, whole: View): View {
  const least = Math.min(whole.width, whole.height) / 60;
  const width = Math.min(Math.max(view.width / times, least), whole.width * 2);
  const scale = width / view.width;
  return {
    x: about.x - (about.x - view.x) * scale,
    y: about.y - (about.y - view.y) * scale,
    width,
    height: view.height * scale,
  };
}

/** Moved so that something of the drawing stays in sight. */
export function moved(view: View, dx: number, dy: number, whole: View): View {
  const within = (at: number, size: number, from: number, length: number) =>
    Math.min(Math.max(at, from - size * 0.8), from + length - size * 0.2);
  return {
    ...view,
    x: within(view.x + dx, view.width, whole.x, whole.width),
    y: within(view.y + dy, view.height, whole.y, whole.height),
  };
}

/** As much of the drawing as fits the frame's shape: the whole width, from the top. */
export function first_view(whole: View, frame: { width: number; height: number }): View {
  const height = frame.width > 0 ? (whole.width * frame.height) / frame.width : whole.height;
  return { x: whole.x, y: whole.y, width: whole.width, height };
}

/** A view that shows this box in its middle, near enough to be read. */
export function view_on(box: View, view: View, near: number): View {
  const width = Math.min(view.width, near);
  const height = (view.height * width) / view.width;
  return { x: box.x + box.width / 2 - width / 2, y: box.y + box.height / 2 - height / 2, width, height };
}
