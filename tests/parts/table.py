"""A small table in the form of the open one, of invented modules."""

HEAD = (
    "Name,Technology,Bifacial,STC,PTC,A_c,Length,Width,N_s,I_sc_ref,V_oc_ref,I_mp_ref,V_mp_ref,alpha_sc,beta_oc,"
    "T_NOCT,a_ref,I_L_ref,I_o_ref,R_s,R_sh_ref,Adjust,gamma_r,BIPV,Version,Date\n"
    "Units,,,,,m2,m,m,,A,V,A,V,A/K,V/K,C,V,A,A,Ohm,Ohm,%,%/K,,,\n"
    "[0],x_material,,,,x_area,,,x_n_s,x_isc,x_voc,x_imp,x_vmp,x_alpha,x_beta,x_noct,,,,,,,x_gamma,,,\n"
)
ROWS = (
    "Example Works EX-60 Été 250/B,{technology},0,250.128,225.1,1.6,1.65,0.99,60,8.7,37.9,8.2,30.504,0.0044,"
    "-0.1251,45.5,1.6,8.7,1e-10,0.3,300,8.1,-0.43,N,issue 3,2/1/2020\n"
    "Example Works EX-72 300,{technology},0,300,270,1.9,1.95,0.99,72,8.9,45.5,8.3,36.2,0.0045,-0.15,45,1.9,"
    "8.9,1e-10,0.3,300,8,-0.42,N,issue 3,2/1/2020\n"
)
