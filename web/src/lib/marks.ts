/** Marks of a drawing: which is next in a direction, and which rows one stands for. */

export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** The ways that the arrow keys point. */
export const kArrows: Record<string, [number, number]> = {
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
};

/** The place of the box nearest to box `from` in a direction, what lies off the way counting threefold; -1 where there is none. */
export function next_mark(boxes: readonly Box[], from: number, [dx, dy]: [number, number]): number {
  const here = boxes[from];
  if (!here) return -1;
  const x0 = here.left + here.width / 2;
  const y0 = here.top + here.height / 2;
  let best = -1;
  let least = Infinity;
  boxes.forEach((box, at) => {
    if (at === from) return;
    const x = box.left + box.width / 2 - x0;
    const y = box.top + box.height / 2 - y0;
    const along = x * dx + y * dy;
    if (along <= 1) return;
    const far = along + 3 * Math.abs(x * dy - y * dx);
    if (far < least) [best, least] = [at, far];
  });
  return best;
}
