(() => {
  document.documentElement.classList.remove("no-script");
  const word = document.getElementById("find");
  const kind = document.getElementById("kind");
  const shown = document.getElementById("shown");
  const hearts = [...document.querySelectorAll("article.heart")];
  if (!word || !kind || !shown) return;
  const texts = hearts.map((one) => one.textContent.toLowerCase());
  const links = hearts.map((one) => document.querySelector(`.index a[href="#${CSS.escape(one.id)}"]`));
  const look = () => {
    const wanted = word.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    hearts.forEach((one, at) => {
      const fits = wanted.every((part) => texts[at].includes(part)) && (!kind.value || one.dataset.has.split(" ").includes(kind.value));
      one.hidden = !fits;
      if (links[at]) links[at].parentElement.hidden = !fits;
      count += fits ? 1 : 0;
    });
    shown.textContent = `${count} of ${hearts.length} shown`;
  };
  word.addEventListener("input", look);
  kind.addEventListener("change", look);
  addEventListener("beforeprint", () => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
  look();
})();
