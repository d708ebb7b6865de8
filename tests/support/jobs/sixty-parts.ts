/** A wall of pigeonholes: sixty parts with grooves or the notches that stopped grooves ask for, for what is measured on a large job. */
const columns = Array.from({ length: 9 }, (_, i) => ({ rows: Array.from({ length: i < 3 ? 7 : 6 }, () => ({})) }));

export const SIXTY_PARTS = JSON.stringify({
  job: { number: "PS-160", title: "Pigeonholes", date: "2026-11-20", revision: "A" },
  unit: "mm",
  stock: { "ply-18mm": { measured: [17.65] }, "ply-6mm": { measured: [5.7] } },
  joinery: { depth: 6, setBack: 15 },
  cases: [
    {
      name: "pigeonholes",
      width: 2200,
      height: 1180,
      depth: 320,
      stock: { all: "ply-18mm", back: "ply-6mm" },
      bottom: { up: 80 },
      top: { down: 20 },
      edges: { front: "shows", top: "shows" },
      back: { setIn: 10, grain: "level" },
      kick: { setBack: 40 },
      bays: { columns },
    },
  ],
});
