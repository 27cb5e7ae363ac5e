"""Which outline and which marks make the drawing of each sign."""

from __future__ import annotations

from collections.abc import Mapping

_LINES = """
lf_curl_tight rolled_leaf | lf_thick_pucker leaf puckers | lf_white_bloom leaf puckers powder
lf_aphids_in_curl rolled_leaf bugs | lf_black_aphids rolled_leaf bugs_many | lf_rosy_aphids rolled_leaf bugs powder
lf_mealy_aphids leaf bugs_many powder | lf_white_fluff_roll rolled_leaf wool bugs
lf_edge_roll_long narrow_leaf edges | lf_honeydew leaf drops | lf_sooty leaf soot | lf_shothole leaf holes
lf_spots_round_purple leaf spots | lf_spots_angular leaf angles | lf_spots_olive leaf spots film
lf_spots_tiny_dark leaf specks | lf_spots_frogeye leaf rings | lf_spots_orange leaf spots sun
lf_tubes_under leaf spots mould | lf_spots_yellow_angular leaf angles pale | lf_rust_powder leaf blisters powder
lf_pink_spores_under leaf halos | lf_yellow_drop leaf spots falling | lf_powder_white leaf powder
lf_stipple leaf specks pale | lf_fine_web leaf web specks | lf_bronze leaf film | lf_silver leaf film pale
lf_blisters leaf blisters | lf_black_scorch leaf dark | lf_margin_scorch leaf edges
lf_yellow_band leaf edges edge_band | lf_intervein_young leaf veins sprout | lf_intervein_old leaf veins falling
lf_old_edge_roll rolled_leaf edges | lf_small_rosette shoot broom few_leaves | lf_pale_all leaf pale
lf_strap_cup strap_leaf | lf_mosaic leaf patches | lf_tatter ragged_leaf sunken | lf_window leaf film holes
lf_slug_larva leaf slugs | lf_lace leaf net | lf_ragged ragged_leaf | lf_tied_silk rolled_leaf silk
lf_mine leaf mine | lf_wilt_hot shoot wilted sun | lf_red_early leaf dark sun | lf_drop_early tree falling
lf_sparse bare_tree few_leaves | lf_late_tufts bare_tree sprout | lf_sharp_burn leaf spots edges
sh_flag shoot dead_tip wilted | sh_tunnel shoot worm dead_tip | sh_tunnel_frass_out shoot worm frass
sh_crook hooked_shoot | sh_ooze hooked_shoot drops | sh_spur_limit shoot dead_base | sh_dieback twig dead_tip
sh_dead_bud_gum twig gum | sh_purple_spots twig twig_spots | sh_swollen shoot swelling | sh_bushy shoot broom
sh_short twig short_span | sh_cut_twig twig cut falling | sh_slits twig slits | sh_bud_gall twig galls
sh_powder shoot powder | sh_leaves_cling shoot wilted frost
bl_brown_stuck blossom dark gum | bl_tan_tufts blossom mould | bl_black_cluster blossom dark
bl_pistil_black blossom target | bl_straggly twig few_leaves | bl_none blossom crossed | bl_ok_no_set blossom falling
fr_none tree crossed | fr_drop_green small_fruit falling | fr_rot_tan fruit sunken mould | fr_mummy mummy
fr_whisker fruit drops mould | fr_bladder bladder_fruit | fr_scab fruit rough spots
fr_freckles fruit stalk_end specks | fr_spots_pitted fruit pits gum | fr_spots_raised fruit halos rough
fr_rot_sunken_rings fruit target | fr_rot_vshape cut_fruit v_rot | fr_rot_firm_calyx fruit eye_rot
fr_rot_soft_cyl cut_fruit core_rot | fr_rot_bullseye fruit rings | fr_smudge fruit soot | fr_flyspeck fruit specks
fr_orange_distort fruit eye_rot puckers | fr_orange_lesion fruit spots sun | fr_white_patch fruit powder
fr_net_russet fruit net | fr_smooth_russet fruit film | fr_ring_russet fruit belt | fr_rust_spots fruit halos
fr_rings_pale fruit rings pale | fr_small_pale small_fruit pale | fr_pits_calyx fruit eye_end pits
fr_dimple_puncture fruit pits specks | fr_stony cut_fruit specks rough | fr_catface fruit puckers crack
fr_gum_beads fruit beads | fr_crescent fruit crescent | fr_worm_core cut_fruit worm tunnel crumbs
fr_worm_stone cut_stone_fruit worm | fr_worm_banded cut_stone_fruit worm bands | fr_trails cut_fruit trails
fr_maggots cut_fruit worms | fr_pinholes_leak fruit pinholes drops | fr_grub_c cut_fruit c_grub
fr_exit_1mm fruit pinholes falling | fr_web_frass cut_fruit web frass | fr_shallow_chew fruit rough trails
fr_silver_scar fruit film net | fr_red_halo fruit halos scales | fr_lumpy_cluster small_fruit puckers
fr_peck fruit peck | fr_gnaw fruit bite | fr_hollowed_wasps fruit bite flies | fr_beetle_gouge fruit bite bugs
fr_sunburn fruit sun_side sun | fr_crack fruit crack | fr_split_stone cut_stone_fruit crack gum | fr_double twin_fruit
fr_hail_dents fruit pits hail | fr_glassy cut_fruit halos drops | fr_black_arils cut_fruit black_core
fr_sour_ooze fruit drops smell | fr_inside_streak cut_fruit bands | fr_black_powder cut_fruit soot powder
fr_crowded_small branch many_fruit | fr_hull_mold cut_stone_fruit hull mould | fr_hole_seed cut_fruit pinholes gum
br_canker_sunken branch sunken | br_canker_rings branch target | br_canker_strings branch sunken strands
br_pimples branch pimples | br_gum_live_bark branch gum | br_gum_dead_bark branch gum sunken
br_sour_smell branch smell drops | br_knots twig knots | br_stain_wedge cut_branch wedge
br_stain_rings cut_branch stain_ring | br_scale_grey branch scales specks | br_scale_dome twig scales
br_white_wool branch wool | br_wool_knots branch wool knots | br_holes_tiny trunk pinholes
br_holes_rows trunk hole_rows | br_toothpick trunk strands | br_flat_frass trunk tunnel sunken
br_frass_gum_base crown gum frass | br_frass_gum_crotch branch gum frass | br_conk trunk shelf
br_lichen branch lichen | br_sw_crack trunk cracks sun | br_broken branch crack arrow_down
br_papery trunk film cracks | br_mud_eggs trunk scales rough
rt_bark_brown crown sunken | rt_white_fans crown fans | rt_mushrooms crown mushrooms | rt_strands crown strands
rt_gall_hard crown galls | rt_knots_small crown beads_on_roots | rt_burr trunk galls | rt_gnaw_low crown gnawed
rt_gnaw_2ft crown gnawed_high | rt_gnaw_below crown gnawed mound | rt_wet tree water | rt_dry tree dry_soil
rt_deep graft buried | rt_union_line graft line | rt_union_snap graft snap | rt_suckers graft suckers
rt_wound crown torn
wt_collapse tree wilted arrow_down | wt_slow bare_tree arrow_down | wt_one_limb tree one_side
wt_many_species two_trees wilted | wt_new_ok shoot sprout | wt_weedkiller tree spray | wt_recent_spray leaf spray
wt_frost tree frost | wt_heat tree sun | wt_hail tree hail | wt_alkaline tree powder water | wt_salt tree salt
wt_juniper conifer | wt_incense_cedar conifer few_leaves | wt_no_pollinizer blossom no_bee
wt_warm_winter bare_tree sun | wt_overcrop tree many_fruit | wt_alternate two_trees fruit_on_one
wt_overvigor shoot broom sprout | wt_young young_tree | wt_browse tree browsed | wt_lanternfly insect spots wings
wt_tent_crotch branch tent | wt_web_tips shoot web | wt_hump_cats leaf hump | wt_metal_beetles insect film
wt_earwigs insect pincers | wt_leafhop insect wings | wt_footed_bug insect leaf_legs | wt_shield_bug insect shield
wt_old_orchard tree stump
"""


def _read(lines: str) -> dict[str, tuple[str, tuple[str, ...]]]:
    found = {}
    for entry in lines.replace("\n", "|").split("|"):
        words = entry.split()
        if words:
            found[words[0]] = (words[1], tuple(words[2:]))
    return found


DRAWN: Mapping[str, tuple[str, tuple[str, ...]]] = _read(_LINES)
