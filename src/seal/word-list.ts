/**
 * 512 short, plain words for passphrases: nine bits each. Chosen by hand; no two differ by a single letter, so that a
 * slip of the pen on the sealed page does not make another word.
 */
export const passphraseWords: readonly string[] = `
acorn agate album alder alley almond alpine amber anchor ankle apple apron arbor arch arrow ash atlas attic
autumn awning azure badge bagel baker bamboo banjo banner barley barn barrel basil basket beach beacon bead
beaver bell berry birch blue board boat bonnet book border bottle bowl branch brass breeze brick bridge bronze
broom brush bubble bucket buckle bugle bundle butter button cabin cable cactus camel camera candle canoe canvas
canyon cape cargo carpet carrot castle cedar celery cellar chain chalk cherry chess circle citrus clay cliff
clock cloud clover coast cobalt coffee comet copper coral corner cotton cradle crater crayon cream creek crocus
crown cube cup cycle cymbal daisy dance dawn delta denim desert desk dinner donkey door dragon drawer drift drum
duck dune eagle earth easel echo eight elbow elm engine fabric falcon farmer fence fern fiddle field finch flag
flannel flint flour flute foam folder forest fork fossil fox frame freckle fresco friend frost fruit fudge
galaxy gallery garden garlic gecko gentle geyser ginger giraffe glacier glass globe goblet golden goose granite
grape gravel green guitar gull hammer hammock harp harvest hat hazel heart hedge helmet herb heron hiking hill
hinge honey hood horizon horse hotel humble husky ice igloo indigo ink iris iron island ivory ivy jacket jade
jaguar jar jasmine jelly jewel jigsaw journal jungle juniper kayak kettle kiosk kitchen kite kitten kiwi knee
knot koala label lace ladder lagoon lamp lantern laundry leaf lemon lentil letter library lilac lily linen
lizard llama lobby locket log loom lotus lunar lyric magnet mango mantle maple marble market marsh meadow melody
melon meteor metro milk mint mirror mole moon morning mosaic moss moth motor muffin museum music napkin needle
nest nickel noodle north nugget nutmeg nylon oak oasis ocean octave office olive onion opal orange orbit orchard
orchid origami otter oven oyster paddle palace palm panda panel pantry paper parade pasta path peanut pearl
pebble pelican pencil penguin pepper piano picnic pigeon pillow pilot pine planet plate plaza plum poem polar
polka pond poppy porch potato pottery prairie pretzel prism pudding pulley pumpkin puppet purple puzzle quail
quarry quartz quiet quince quiver rabbit radio radish raft rain raisin raven recipe reed ribbon ring ripple
river robin roof rope round ruby rudder rug rustic saffron sail salad salmon sand sandal sapling satin saturn
scarf school scooter seal season seven shadow shell shelter shoe shovel silver six skate sketch sky sled sleeve
slope smooth snow soap sock sofa south spark sparrow spice spinach spiral spoon spring spruce stable stair stamp
statue steam stone stool straw stripe studio sugar summer sunset surf swallow swan sweater swift swing syrup
tailor teapot tennis tent thimble thistle thread thunder ticket tiger timber token tomato topaz tower trail
trophy trumpet tulip tundra tunnel turnip turtle twelve twig twist unicorn uphill urban vanilla vase vector
velvet verse village vinegar violet violin vivid volcano voyage waffle wagon walnut walrus warm water wave wax
whale wheat wheel whisper white window winter wisdom wolf wonder wool wreath yacht yard year yellow yodel yogurt
zebra zenith zephyr zigzag zinc zipper zone
`
  .trim()
  .split(/\s+/);
